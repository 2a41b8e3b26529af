/**
 * Formulas as people write them and as they are stored.
 *
 * Stored (canonical) text keeps units inside strings, `UNIT(6,"in")`, where no rewriting of references can touch them,
 * and holds nothing the calculator's own reader stumbles over. The editor takes and shows `6 in`.
 */
import { readContent, readQuantity, unitIn } from '../../functions/quantity-text.ts';
import { type UnitThere, unitAfter, unitAt } from '../../functions/unit-at.ts';
import { QUOTED } from '../book/address.ts';
import { ownFormula } from '../book/other-writing.ts';
import { LOST, LOST_WORD, sayLost } from '../book/references.ts';

export type { Content } from '../../functions/quantity-text.ts';

export type Canonical = { readonly ok: true; readonly content: string } | { readonly ok: false; readonly message: string };

const SIGNS: Readonly<Record<string, string>> = { '×': '*', '÷': '/', '−': '-', '–': '-', '≤': '<=', '≥': '>=', '≠': '<>' };
const SPACE = /[\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000\t\r\n]/;
const NUMBER = /(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+(?![\w.]))?/y;
// × and ÷ lie among the letters of Latin-1.
const LETTERS = 'A-Za-z_\\u00c0-\\u00d6\\u00d8-\\u00f6\\u00f8-\\u02af';
const TAPE = /^\d+(?:\.\d+)? ?(?:′|ft\b|foot\b|feet\b) ?\d+(?:\.\d+)?(?: \d{1,2}\/\d{1,2})? ?(?:″|in\b|inch\b|inches\b)/;
const WORD = new RegExp(`[${LETTERS}$][${LETTERS}\\d.$]*`, 'y');
const CELL = /^\$?[A-Za-z]{1,3}\$?\d+$/;
const QUOTED_TABLE = new RegExp(`${QUOTED}\\.`, 'uy');
class Refused extends Error {}

/** A unit in the book's currency; another currency's is refused. */
function own(found: UnitThere | undefined, currency: string): Exclude<UnitThere, { foreign: string }> | undefined {
  if (found && 'foreign' in found && found.foreign === 'AWG')
    throw new Refused('A wire gauge is a plain number here: WIRE.AREA(12) gives the cross-section of AWG 12.');
  if (found && 'foreign' in found)
    throw new Refused(`This book is in ${currency}; ${found.foreign} is another currency's, and a book has no rate of exchange.`);
  return found;
}

const number = (digits: string): string => {
  const text = digits.replace('E', 'e').replace(/\.(?=$|e)/, '');
  return text.startsWith('.') ? `0${text}` : text;
};

/** A text literal that the calculator reads back: it knows no doubled quotes and takes a last backslash for an escape. */
function literal(content: string): string {
  const parts = content.split('"').flatMap((part) => {
    const tail = /\\*$/.exec(part)?.[0].length ?? 0;
    return tail % 2 === 1 ? [`"${part.slice(0, -1)}"&CHAR(92)&""`] : [`"${part}"`];
  });
  const joined = parts.join('&CHAR(34)&');
  return joined === `"${content}"` ? joined : `(${joined})`;
}

const WRITTEN = /UNIT\((-?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?),"([^"]+)"\)/g;

/** `UNIT(200,"umol/m2/s")` in the unit's own spelling. */
function respelt(whole: string, digits: string, text: string, currency: string): string {
  const found = unitIn(text, currency);
  return found && found.symbol !== '' ? `UNIT(${digits},"${found.symbol}")` : whole;
}

/** Reads a formula from left to right, writing its canonical form. */
class Scanner {
  private out = '';
  private at = 0;
  /** The last thing written was a value: a minus after it takes away, elsewhere it is a sign. */
  private afterValue = false;
  /** Where in `out` a sign stands that belongs to the number after it. */
  private sign = -1;
  private depth = 0;
  private readonly brackets: string[] = [];
  private readonly text: string;
  private readonly currency: string;

  constructor(text: string, currency: string) {
    this.text = text;
    this.currency = currency;
  }

  run(): string {
    while (this.at < this.text.length) this.step();
    return this.out;
  }

  private step(): void {
    const c = this.text[this.at] ?? '';
    if (c === '"') this.quoted();
    else if (c === "'") this.table();
    else if (this.match(NUMBER)) this.amount();
    else if (this.match(WORD)) this.word();
    else this.mark(c);
  }

  private match(pattern: RegExp): string | undefined {
    pattern.lastIndex = this.at;
    return pattern.exec(this.text)?.[0];
  }

  private put(text: string, value: boolean): void {
    this.out += text;
    this.afterValue = value;
    this.sign = -1;
  }

  private quoted(): void {
    let end = this.at + 1;
    let content = '';
    for (;;) {
      const close = this.text.indexOf('"', end);
      if (close < 0) throw new Refused('A text in this formula is not closed: a double quote (") is missing.');
      content += this.text.slice(end, close);
      end = close + 1;
      if (this.text[end] !== '"') break;
      content += '"';
      end++;
    }
    this.at = end;
    this.put(literal(content), true);
  }

  private table(): void {
    const name = this.match(QUOTED_TABLE);
    if (name === undefined) throw new Refused("A single quote (') opens the name of a table, such as 'Light map'.A1. Feet are written “3 ft” in a formula.");
    this.at += name.length;
    this.put(name, false);
  }

  private amount(): void {
    const digits = this.match(NUMBER) ?? '';
    const start = this.at;
    this.at += digits.length;
    const after = this.text.slice(this.at);
    if (this.tape(start)) return;
    if (/^["″]/.test(after)) throw new Refused(`In a formula inches are written “${digits} in”.`);
    if (/^['′]/.test(after)) throw new Refused(`In a formula feet are written “${digits} ft”.`);
    if (/^,\d/.test(after) && this.depth === 0) {
      const point = `In a formula the decimal mark is a point: ${digits.replace('.', '')}.${/^,(\d+)/.exec(after)?.[1] ?? ''}`;
      const thousands = digits.includes('.') ? undefined : /^(?:,\d{3})+(?![\d,])(?:\.\d+)?/.exec(after)?.[0];
      throw new Refused(thousands === undefined ? point : `${point}. Thousands stand without a mark: ${digits}${thousands.replaceAll(',', '')}`);
    }
    const apart = /^(?:\s\d{3})+(?!\d)/.exec(after)?.[0];
    if (apart !== undefined) throw new Refused(`In a formula thousands stand without a gap: ${digits}${apart.replaceAll(/\s/g, '')}`);
    const found = own(unitAfter(after, this.currency), this.currency);
    const shown = number(digits);
    if (!found || this.text[start - 1] === ':') {
      this.put(shown, true);
      return;
    }
    this.at += found.length;
    const next = this.text.slice(this.at);
    if (/^ *[\d.]/.test(next) && own(unitAt(next.replace(/^ *[\d.]+ */, ''), this.currency), this.currency)) {
      throw new Refused(`Join the parts of a length with a plus: ${digits} ${found.symbol} + …`);
    }
    this.quantity(shown, found.symbol);
  }

  /** A number with its unit, and the sign that belongs to it. */
  private quantity(digits: string, symbol: string): void {
    const signed = this.sign >= 0;
    if (signed) this.out = this.out.slice(0, this.sign);
    this.put(`UNIT(${signed ? '-' : ''}${digits},"${symbol}")`, true);
  }

  /** Feet and inches at `start` are one length: `5 ft 4 in` is 64 in. The marks of a keyboard stand for texts and tables here, ′ and ″ for nothing else. */
  private tape(start: number): boolean {
    const written = TAPE.exec(this.text.slice(start))?.[0];
    if (written === undefined) return false;
    const taken = readQuantity(written, { currency: this.currency, unit: 'in' });
    if (taken.kind !== 'number') throw new Refused(taken.kind === 'refused' ? taken.message : `“${written}” is no length.`);
    this.at = start + written.length;
    this.quantity(String(taken.value), 'in');
    return true;
  }

  private word(): void {
    const word = this.match(WORD) ?? '';
    this.at += word.length;
    const rest = this.text.slice(this.at);
    const call = /^\s*\(/.exec(rest)?.[0];
    if (call !== undefined) {
      this.at += call.length;
      this.open(')');
      this.put(`${word.toUpperCase()}(`, false);
      return;
    }
    if (word.toLowerCase() === LOST_WORD) {
      this.put(LOST, true);
      return;
    }
    const said = /^(true|false)$/i.test(word) || CELL.test(word) ? word.toUpperCase() : word;
    this.put(said, true);
  }

  private open(closing: string): void {
    this.depth++;
    this.brackets.push(closing);
  }

  private mark(c: string): void {
    this.at++;
    if (SPACE.test(c) || c === ' ') {
      // A space changes nothing about what a sign belongs to.
      this.out += ' ';
      return;
    }
    const sign = SIGNS[c] ?? c;
    if (sign === '-' && !this.afterValue) {
      const start = this.out.length;
      this.put('-', false);
      this.sign = start;
      return;
    }
    if (sign === '(' || sign === '{') this.open(sign === '(' ? ')' : '}');
    if (sign === ')' || sign === '}') {
      this.depth--;
      this.brackets.pop();
    }
    if (sign === ';' && this.brackets.at(-1) !== '}') throw new Refused('The arguments of a function are separated by commas.');
    this.put(sign, sign === ')' || sign === '}' || sign === '%' || sign === '#');
  }
}

/**
 * The canonical form of a formula as typed (with its equals sign): `=C5+6 in` becomes `=C5+UNIT(6,"in")`. Names, arguments
 * and units are not looked at here beyond their spelling. What can't be read at all is refused with a sentence.
 */
export function toCanonical(typed: string, currency: string): Canonical {
  // The names of tables are as they are, letter for letter.
  const text = ownFormula(typed.trim().replaceAll(/"[^"]*"|'(?:[^']|'')*'|[^"']+/g, (part) => (part.startsWith("'") ? part : part.normalize('NFC'))));
  try {
    const canonical = new Scanner(text.startsWith('=') ? text.slice(1).trim() : text, currency).run();
    return { ok: true, content: `=${canonical.replace(WRITTEN, (whole, digits: string, u: string) => respelt(whole, digits, u, currency))}` };
  } catch (error) {
    if (error instanceof Refused) return { ok: false, message: error.message };
    throw error;
  }
}

const LITERAL = /\("(?:[^"]|"&CHAR\((?:34|92)\)&")*"\)/g;

const unescaped = (joined: string): string => joined.slice(1, -1).replaceAll('"&CHAR(34)&"', '""').replaceAll('"&CHAR(92)&"', '\\');

/** Pieces of a formula outside and inside of its texts, in turn. */
const shorter = (canonical: string, only?: number): string => {
  let n = -1;
  const write = (whole: string, short: string): string => {
    n++;
    return only === undefined || n === only ? short : whole;
  };
  return canonical
    .replace(WRITTEN, (whole, digits: string, symbol: string) => write(whole, `${digits} ${symbol}`))
    .replace(LITERAL, (whole) => write(whole, unescaped(whole)));
};

/** How a stored formula is shown for editing: `=C5+6 in`. It reads back as exactly what is stored. */
export function toEditable(stored: string, currency: string): string {
  const canonical = sayLost(stored);
  const returns = (text: string): boolean => {
    const back = toCanonical(text, currency);
    return back.ok && back.content === stored;
  };
  const all = shorter(canonical);
  if (returns(all)) return all;
  // Somewhere the short form would read as something else (`-UNIT(5,"m")`, `UNIT(3,"m")^2`): shorten what can be.
  let text = canonical;
  const count = [...canonical.matchAll(WRITTEN), ...canonical.matchAll(LITERAL)].length;
  for (let left = count, skipped = 0; left > 0; left--) {
    const tried = shorter(text, skipped);
    if (returns(tried)) text = tried;
    else skipped++;
  }
  return text;
}

/** A stored content as it is shown for editing: formulas in short form, texts without their apostrophe unless they need it. */
export function editableContent(content: string, currency: string): string {
  const read = readContent(content, currency);
  return read.kind === 'formula' ? toEditable(content, currency) : content;
}
