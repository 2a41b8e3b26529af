/** What commands work on: the open book, the chosen cell, and what the page can do with them. */

import { cellAt } from '../../book/address.ts';
import { type Area, placesOf } from '../../book/area.ts';
import type { Book } from '../../book/book.ts';
import type { Change } from '../../book/change.ts';
import { clearCells } from '../../book/commands/clear-cells.ts';
import { sentence } from '../../book/label.ts';
import { isLocked, lockedProblem } from '../../book/locked.ts';
import { addressOf, baseColumn, columnHeading, placeOf, standingOf, unitOf } from '../../book/look-up.ts';
import { NOT_PLACED } from '../../book/names.ts';
import { type Answer, isRefused, refused } from '../../book/refused.ts';
import { sourceText } from '../../book/said-by.ts';
import type { Session } from '../../session.ts';
import { can, spotOf, type Verb } from '../blocks/verbs.ts';
import { baseOf, valueAt } from '../parts/cell-view.ts';
import type { Desk, SentOut } from '../parts/command.ts';
import { placeOfAt, type Wishes } from '../parts/part.ts';
import { switchLight } from '../shell/light.ts';
import type { Room } from '../shell/room.ts';
import type { TakeAnswer } from '../slips/brief-slip.ts';
import type { ObPasteSlip } from '../slips/paste-slip.ts';
import { type Shape, shapeOf } from './shape.ts';

/** Pages that every book has besides its own. */
export const OWN_PAGES: readonly { readonly id: string; readonly title: string; readonly load: () => Promise<unknown> }[] = [
  { id: 'hand-over', title: 'Hand-over sheet', load: () => import('../blocks/handover.ts') },
  { id: 'what-changed', title: 'What changed', load: () => import('../blocks/changes.ts') },
  { id: 'functions', title: 'The functions', load: () => import('../margin/functions-page.ts') },
];

/** What draws such a page comes when it is first shown. */
export const loadOwnPage = (id: string): void => void OWN_PAGES.find((page) => page.id === id)?.load();

export class PageDesk implements Desk {
  readonly #room: Room;
  #shape: { readonly book: Book; readonly key: string; readonly shape: Shape } | undefined;
  /** What was asked for last: a part of the program that is still being fetched must not let the next key overtake it. */
  #turn: Promise<unknown> = Promise.resolve();
  piece: string | undefined;

  constructor(room: Room) {
    this.#room = room;
  }

  get bookOpen(): boolean {
    return this.#room.session !== undefined;
  }
  get canUndo(): boolean {
    return (this.#room.session?.history.done.length ?? 0) > 0;
  }
  get canRedo(): boolean {
    return (this.#room.session?.history.undone.length ?? 0) > 0;
  }
  get canReturn(): boolean {
    return this.#room.canReturn;
  }
  get scenario(): string | undefined {
    const { at } = this.#room;
    return at?.table.form === 'scenarios' ? columnHeading(at) : undefined;
  }
  get sameAs(): string | undefined {
    const { at } = this.#room;
    const base = at && baseOf(at);
    if (!at || !base || standingOf(at) !== 'given') return undefined;
    return columnHeading(base);
  }
  get canDrop(): boolean {
    const { at } = this.#room;
    return at?.table.form === 'scenarios' && at.table.columns.length > 1 && at.columnIndex !== baseColumn(at.table);
  }
  get hasMend(): boolean {
    const mend = this.#mend;
    return mend !== undefined && (mend.content !== undefined || mend.unit !== undefined);
  }
  get quantity(): boolean {
    const { at, session } = this.#room;
    if (!at || !session) return false;
    const value = valueAt(session.values, addressOf(at));
    return value.kind === 'number' || (value.kind === 'blank' && unitOf(at) !== undefined);
  }
  get quantityRow(): boolean {
    const { at } = this.#room;
    return this.quantity && at !== undefined && at.table.form !== 'list' && at.table.columns.length > 1;
  }
  get hasNotPlaced(): boolean {
    return this.#room.session?.book.pages.some((page) => page.title === NOT_PLACED) ?? false;
  }
  get hasQuestions(): boolean {
    return this.#room.session?.book.tables.some((table) => table.form === 'brief') ?? false;
  }
  get hasFit(): boolean {
    const { session } = this.#room;
    return session !== undefined && placeOf(session.book, 'light_carried') !== undefined;
  }
  get measures(): Book['measures'] | undefined {
    return this.#room.session?.book.measures;
  }
  get pages(): readonly { readonly id: string; readonly title: string }[] {
    const { session } = this.#room;
    return session ? [...session.book.pages, ...OWN_PAGES] : [];
  }
  can(verb: Verb): boolean {
    const { session, pageId } = this.#room;
    return session !== undefined && can(verb, session.book, spotOf(session.book, pageId, this.piece));
  }
  get #mend() {
    const { at, session } = this.#room;
    const value = at && session && valueAt(session.values, addressOf(at));
    return value?.kind === 'error' ? value.mend : undefined;
  }

  #inTurn<T>(work: () => T | Promise<T>): Promise<T> {
    const mine = this.#turn.then(work);
    this.#turn = mine.catch(() => undefined);
    return mine;
  }

  undo(): void {
    void this.#inTurn(() => {
      const change = this.#room.session?.undo();
      if (change) this.#room.tell(sentence(`Taken back: ${change.label}`), true);
    });
  }
  redo(): void {
    void this.#inTurn(() => {
      const change = this.#room.session?.redo();
      if (change) this.#room.tell(sentence(`Made again: ${change.label}`), true);
    });
  }
  async sendOut(what: SentOut): Promise<void> {
    const { session } = this.#room;
    if (!session) return;
    // What was typed goes out whether or not it can be worked out.
    if (what !== 'book') await session.settled();
    const { sendOut } = await import('../shell/book-parts.ts');
    this.#room.tell(`Sent out ${await sendOut(what, session.book, session.values)}.`, true);
  }
  bringIn(): void {
    this.#room.bringIn();
  }
  take(change: Change): void {
    this.#room.session?.dispatch(change);
    this.#room.tell(sentence(change.label), true);
  }
  print(): void {
    window.print();
  }
  find(): void {
    this.#room.find();
  }
  shelf(): void {
    void this.#room.toShelf();
  }
  show(page: string): void {
    this.#room.showPage(page);
  }
  async scenarioDo(verb: 'add' | 'drop' | 'same' | 'base'): Promise<void> {
    const { session, at } = this.#room;
    const table = at?.table.form === 'scenarios' ? at.table : session?.book.tables.find((t) => t.form === 'scenarios');
    if (!session || !table) return;
    await this.#inTurn(async () => {
      const { scenarioChange } = await import('./scenario-change.ts');
      this.#run((book) => scenarioChange(verb, book, table, at));
    });
  }
  async mend(): Promise<void> {
    const { session, at } = this.#room;
    const mend = this.#mend;
    if (!session || !at || !mend) return;
    const target = (mend.cell && cellAt(session.book, mend.cell)) || at;
    const { content, unit } = mend;
    if (content !== undefined) await this.#room.type({ place: placeOfAt(target), typed: content });
    else if (unit !== undefined) {
      // The unit that is set contradicts what is worked out: the view is mended, the formula stays.
      const { setUnit } = await import('../../book/commands/set-unit.ts');
      this.#run((book) => setUnit(book, { addresses: [addressOf(target)], unit }));
    }
  }
  light(): void {
    this.#room.tell(switchLight() === 'night' ? 'Night look.' : 'Day look.');
  }
  goBack(): void {
    this.#room.goBack();
  }
  toWorking(): void {
    this.#room.toWorking();
  }
  arrange(verb: Verb): void {
    void this.#room.arrange(verb);
  }
  change({ command, answered }: Wishes['change']): void {
    const answer = this.#room.session?.run(command);
    if (!answer) return;
    // A refusal that the one who asked shows is only said aloud.
    this.#room.tell(isRefused(answer) ? answer.message : sentence(answer.label), !isRefused(answer) || answered === undefined);
    answered?.(answer);
  }
  askUnit(what: 'cell' | 'row'): void {
    void this.#room.askUnit(what);
  }
  askQuestions(): void {
    void this.#room.askQuestions();
  }
  readonly answer: TakeAnswer = async (at, typed, said) => {
    const { session } = this.#room;
    const address = addressOf(at);
    if (!session) return undefined;
    if (typed !== undefined) {
      const taken = await session.type(address, typed, said && sourceText(said.teller, said.how));
      return taken.ok ? undefined : taken.message;
    }
    const { setSource } = await import('../../book/commands/set-source.ts');
    const answer = said && session.run((book) => setSource(book, { address, ...said }));
    return answer && isRefused(answer) ? answer.message : undefined;
  };
  async carryFit(): Promise<void> {
    const { session } = this.#room;
    // What is carried is what the readings give now, not what they gave before the last of them was written.
    await session?.settled();
    const { carryFound } = await import('./carry-fit.ts');
    this.#run((book) => carryFound(book, session?.values ?? {}));
  }
  get hasLacks(): boolean {
    return this.#room.session?.book.template?.lacks !== undefined;
  }
  async takeIn(): Promise<void> {
    const { session } = this.#room;
    const { taken } = await import('../shell/renewing.ts');
    const answer = session && (await taken(session.book));
    if (answer) this.#run(() => answer);
  }
  async showIn({ what, unit }: Wishes['unit']): Promise<void> {
    const { at } = this.#room;
    if (!at) return;
    const { showIn } = await import('../parts/shown-unit.ts');
    this.#run((book) => showIn(book, at, what, unit));
  }
  async switchMeasures(): Promise<void> {
    const { setMeasures } = await import('../../book/commands/set-measures.ts');
    this.#run((book) => setMeasures(book, { measures: book.measures === 'metric' ? 'US customary' : 'metric' }));
  }
  /** Reckoned once for all commands that ask. */
  get shape(): Shape | undefined {
    const { session, at, area } = this.#room;
    const key = JSON.stringify(area);
    if (!session || !at || !area) return undefined;
    if (this.#shape?.book !== session.book || this.#shape.key !== key) this.#shape = { book: session.book, key, shape: shapeOf(session.book, at, area) };
    return this.#shape.shape;
  }
  async reshape(verb: string): Promise<void> {
    await this.#inTurn(async () => {
      const { reshape } = await import('./reshaping.ts');
      await reshape(verb, this.#room, (command) => this.#run(command));
    });
  }
  /** Empties the chosen givens; worked cells that are locked stay, and it is said. */
  clear(): void {
    const { session, area } = this.#room;
    if (session && area) void this.#inTurn(() => this.#clear(session, area));
  }
  #clear(session: Session, area: Area): void {
    const places = (placesOf(session.book, area)?.lines ?? []).flat().filter((at) => at.cell !== undefined && at.cell.content !== '');
    const free = places.filter((at) => !isLocked(at));
    const [locked] = places.filter(isLocked);
    const done = free.length > 0 ? session.run((book) => clearCells(book, { addresses: free.map(addressOf) })) : undefined;
    const stay = places.length - free.length;
    const words = locked && (stay === 1 ? lockedProblem(locked, '') : `${stay} worked cells are locked and stay as they are until you unlock them.`);
    const said = [done && (isRefused(done) ? done.message : sentence(done.label)), words].filter(Boolean).join(' ');
    if (said !== '') this.#room.tell(said, true);
  }
  async paste(pasted: Wishes['paste']): Promise<void> {
    await this.#inTurn(() => this.#paste(pasted));
  }
  async #paste(pasted: Wishes['paste']): Promise<void> {
    const { session, area } = this.#room;
    // A block was chosen from any of its corners: what is pasted begins at its first.
    const at = session && area && placesOf(session.book, area)?.lines[0]?.[0];
    if (!at) return;
    const { book } = session;
    const { pasteInto } = await import('../table/paste-cells.ts');
    const outcome = await pasteInto(session, { book, at, area }, pasted).catch((error: Error) => ({ answer: refused(error.message) }));
    if ('typed' in outcome) await this.#room.type({ place: placeOfAt(at), typed: outcome.typed });
    else if ('ask' in outcome) {
      await import('../slips/paste-slip.ts');
      await this.#room.slip<ObPasteSlip>('ob-paste-slip')?.open(session, outcome.ask);
    } else this.#run((now) => (now === book ? outcome.answer : refused('The book changed while that was read. Paste it again.')));
  }
  #run(command: (book: Book) => Answer): Answer {
    const { session } = this.#room;
    const answer = session ? session.run(command) : refused('No book is open.');
    this.#answer(answer);
    return answer;
  }
  #answer(answer: Answer): void {
    this.#room.tell(isRefused(answer) ? answer.message : sentence(answer.label), true);
  }
  rename(): void {
    this.#room.nameIt();
  }
}
