/** Slips: small panels that ask for something, one a file, fetched and opened by name. */
import type { Around, Slip } from './slip.ts';

const SLIPS = {
  ask: async () => (await import('./ask-slip.ts')).ObAskSlip,
  back: async () => (await import('./back-slip.ts')).ObBackSlip,
  brief: async () => (await import('./brief-slip.ts')).ObBriefSlip,
  'bring in': async () => (await import('./bring-in.ts')).ObBringIn,
  entry: async () => (await import('./entry-slip.ts')).ObEntrySlip,
  enquiry: async () => (await import('./enquiry-slip.ts')).ObEnquirySlip,
  find: async () => (await import('./find-slip.ts')).ObFindSlip,
  form: async () => (await import('./form-slip.ts')).ObFormSlip,
  lines: async () => (await import('./line-menu.ts')).ObLineMenu,
  paste: async () => (await import('./paste-slip.ts')).ObPasteSlip,
  picture: async () => (await import('./picture-slip.ts')).ObPictureSlip,
  'plan name': async () => (await import('./plan-name.ts')).ObPlanName,
  propose: async () => (await import('./propose-slip.ts')).ObProposeSlip,
  range: async () => (await import('./range-slip.ts')).ObRangeSlip,
  unit: async () => (await import('./unit-slip.ts')).ObUnitSlip,
};

type SlipName = keyof typeof SLIPS;
type Opens<Name extends SlipName> = InstanceType<Awaited<ReturnType<(typeof SLIPS)[Name]>>>['open'];

/** A slip by its name, with what it is opened with. */
export type SlipCall = { readonly [Name in SlipName]: { readonly slip: Name; readonly asked: Parameters<Opens<Name>>[0] } }[SlipName];

/** What must be here when whatever serves the page is gone: fetched before a book is opened. */
export const fetchKeptSlips = (): Promise<unknown> => Promise.all([fetchLeave(), SLIPS['plan name']()]);

/** What a plan is begun on, before any book is open. */
export const fetchBegin = (): Promise<unknown> => import('./begin.ts');

/** What a plan is begun on from what the client wrote. */
export const fetchEnquiry = (): Promise<unknown> => import('./enquiry.ts');

const fetchLeave = () => import('./leave-slip.ts');

/** Asks whoever would put away the book that stands on the page and is not saved. False: they stay. */
export const askToLeave = async (page: Element, why: string, sendOut: () => Promise<string>): Promise<boolean> =>
  (await fetchLeave()).askToLeave(page, why, sendOut);

/** Where slips lie: it has those that were opened once. */
export class ObSlips extends HTMLElement {
  readonly #made = new Map<SlipName, Slip<unknown>>();
  #around: Around | undefined;

  /** What they lie on. With a book that is put away go the slips that lay on it. */
  lieOn(around: Around | undefined): void {
    if (around === undefined || around.session !== this.#around?.session) this.#clear();
    this.#around = around;
    for (const slip of this.#made.values()) if (around && slip.isOpen) slip.around = around;
  }

  #clear(): void {
    this.#made.clear();
    this.replaceChildren();
  }

  async openSlip({ slip: name, asked }: SlipCall): Promise<void> {
    const Made = (await SLIPS[name]()) as unknown as new () => Slip<unknown>;
    const around = this.#around;
    if (!around) return;
    const slip = this.#made.get(name) ?? new Made();
    slip.around = around;
    if (!this.#made.has(name)) {
      this.#made.set(name, slip);
      this.append(slip);
    }
    await slip.open(asked);
  }
}
customElements.define('ob-slips', ObSlips);
