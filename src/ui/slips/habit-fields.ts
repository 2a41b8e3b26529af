/** What is usual where a client is, as fields of a form, and what of it this browser remembers for the next client. */
import { html, nothing, type TemplateResult } from 'lit';
import { breakersIn, type Habits, MEASURES, PAPERS, WIRES } from '../../book/habits.ts';
import { keep } from '../parts/index.ts';
import '../styles/begin.css';

const KEY = 'overbench usual';

type Measures = Habits['measures'];

/** What is usual where people measure so, put forward until another is picked: common practice, no published source. */
export const USUAL: Readonly<Record<Measures, Habits>> = {
  metric: { measures: 'metric', currency: 'EUR', mains: 230, breakers: [10, 13, 16, 20, 25, 32, 40], wires: 'mm²', paper: 'A4' },
  'US customary': { measures: 'US customary', currency: 'USD', mains: 120, breakers: [15, 20, 25, 30, 40], wires: 'AWG', paper: 'letter' },
};

const written = (value: Habits[keyof Habits]): string => (typeof value === 'object' ? value.join(', ') : String(value));

/** Where other measures are picked, what still stands as is usual with the ones before goes along. */
export function goAlong({ target }: Event): void {
  if (!(target instanceof HTMLSelectElement) || target.name !== 'measures' || !target.form) return;
  const [now, before] = target.value === 'metric' ? [USUAL.metric, USUAL['US customary']] : [USUAL['US customary'], USUAL.metric];
  for (const name of ['currency', 'mains', 'breakers', 'wires', 'paper'] as const) {
    const field = target.form.elements.namedItem(name);
    if ((field instanceof HTMLInputElement || field instanceof HTMLSelectElement) && field.value === written(before[name])) field.value = written(now[name]);
  }
}

const LEAST_VOLTS = 90;
const MOST_VOLTS = 480;
/** Put forward; any other code may be written. */
const CODES = ['EUR', 'GBP', 'USD', 'CAD', 'AUD', 'NZD', 'CHF', 'SEK', 'NOK', 'DKK', 'PLN', 'CZK', 'JPY', 'INR', 'ZAR', 'BRL', 'MXN'];

/** What a book lacks is not asked for. */
export function habitFields(now: Partial<Habits>): TemplateResult {
  const { measures, currency, mains, breakers, wires, paper } = now;
  return html`<fieldset class="usual"><legend>Usual where the client is</legend>
    ${measures === undefined ? nothing : pick('measures', 'Units', MEASURES, measures)}
    ${currency === undefined ? nothing : html`<label>Money <input name="currency" type="text" required pattern="[A-Za-z]{3}" title="A code of three letters, such as EUR or USD" size="5" autocomplete="off" spellcheck="false" list="money-codes" .defaultValue=${currency} /></label><datalist id="money-codes">${CODES.map((code) => html`<option value=${code}></option>`)}</datalist>`}
    ${mains === undefined ? nothing : html`<label>Mains voltage, V <input name="mains" type="number" required min=${LEAST_VOLTS} max=${MOST_VOLTS} step="any" .defaultValue=${String(mains)} /></label>`}
    ${breakers === undefined ? nothing : html`<label>Breakers there are, A <input name="breakers" type="text" required autocomplete="off" .defaultValue=${breakers.join(', ')} /></label>`}
    ${wires === undefined ? nothing : pick('wires', 'Cable is marked in', WIRES, wires)}
    ${paper === undefined ? nothing : pick('paper', 'Paper', PAPERS, paper)}
  </fieldset>`;
}

const pick = (name: string, label: string, all: readonly string[], now: string): TemplateResult =>
  html`<label>${label} <select name=${name}>${all.map((one) => html`<option value=${one} ?selected=${one === now}>${one}</option>`)}</select></label>`;

/** What stands in the fields; a sentence where one of them can't be read. */
export function habitsIn(data: FormData): Partial<Habits> | string {
  const text = (name: string): string | undefined => data.get(name)?.toString().trim();
  const breakers = text('breakers');
  const sizes = breakers === undefined ? undefined : breakersIn(breakers);
  if (breakers !== undefined && sizes === undefined) return `“${breakers}” is no list of breakers: sizes from 1 to 125 A, such as 15, 20, 30.`;
  const mains = text('mains');
  return whole({
    measures: MEASURES.find((one) => one === text('measures')),
    currency: text('currency')?.toUpperCase(),
    mains: mains === undefined ? undefined : Number(mains),
    breakers: sizes,
    wires: WIRES.find((one) => one === text('wires')),
    paper: PAPERS.find((one) => one === text('paper')),
  });
}

type Loose = { readonly [K in keyof Habits]: Habits[K] | undefined };

/** Without what is not known. */
const whole = (habits: Loose): Partial<Habits> => Object.fromEntries(Object.entries(habits).filter(([, value]) => value !== undefined)) as Partial<Habits>;

export function remember(habits: Partial<Habits>): void {
  keep.write(KEY, JSON.stringify({ ...remembered(), ...habits }));
}

/** What was usual for the client before; whatever it has become meanwhile is left out. */
export function remembered(): Partial<Habits> {
  try {
    const found = JSON.parse(keep.read(KEY) ?? '{}') as Record<string, unknown>;
    const [mains, sizes] = [Number(found.mains), breakersIn(String(found.breakers))];
    return whole({
      measures: MEASURES.find((one) => one === found.measures),
      currency: typeof found.currency === 'string' && /^[A-Z]{3}$/u.test(found.currency) ? found.currency : undefined,
      mains: mains >= LEAST_VOLTS && mains <= MOST_VOLTS ? mains : undefined,
      breakers: sizes,
      wires: WIRES.find((one) => one === found.wires),
      paper: PAPERS.find((one) => one === found.paper),
    });
  } catch {
    return {};
  }
}
