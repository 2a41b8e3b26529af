/**
 * Where commands come in and what they answer is done: a change of the book, an effect on the page, or a refusal that is told. One after the other,
 * in the order in which they were asked for.
 */
import type { ReactiveControllerHost } from 'lit';
import type { Change } from '../../book/change.ts';
import { sentence } from '../../book/label.ts';
import { isRefused } from '../../book/refused.ts';
import {
  type Command,
  type CommandId,
  clear,
  command,
  commandFor,
  type Effect,
  isChange,
  labelOf,
  lineCommands,
  type ObCommandList,
  type PageState,
  pasting,
} from '../commands/index.ts';
import type { ObWorking } from '../margin/index.ts';
import type { Acts, Wishes } from '../parts/index.ts';
import type { ObSlips } from '../slips/index.ts';
import { fetchClip, placeAt } from '../table/index.ts';
import type { Entering } from './entering.ts';
import { goToWorking, printWorking } from './go-to-working.ts';
import { switchLight } from './light.ts';
import { pageState, type Seen } from './page-state.ts';
import type { Telling } from './telling.ts';
import { Turn } from './turn.ts';

/** A command is asked again where the book changed under it; so often, and then it is given up. */
const MOST_TRIES = 3;

/** A page as far as it is drawn: what is done with a piece of it. */
interface ShownPage {
  write(text: Wishes['text']): Promise<void>;
  focusPiece(block: string | undefined): Promise<void>;
}

/** What it is done to. */
interface Doers extends Seen, ReactiveControllerHost, HTMLElement {
  readonly telling: Telling;
  readonly entering: Entering;
  readonly slips: ObSlips;
  readonly list: ObCommandList;
  readonly shownPage: ShownPage | undefined;
  takeCell(): Promise<unknown>;
}

type Asked = Pick<Command, 'run'> & Partial<Pick<Command, 'when' | 'settled' | 'atOnce'>>;

export class Doing {
  readonly #shell: Doers;
  #turn = new Turn();

  constructor(shell: Doers) {
    this.#shell = shell;
  }

  get state(): PageState {
    return pageState(this.#shell, this.#turn.busy);
  }

  /** A command for whoever has a button for it. */
  readonly acts: Acts<CommandId> = (id, piece) => {
    const found = command(id);
    const state = pageState(this.#shell, this.#turn.busy, piece);
    return {
      label: labelOf(found, state),
      keys: found.keys,
      usable: found.when(state),
      run: () => {
        if (piece !== undefined) this.#shell.whereabouts.piece = piece;
        this.do(found);
      },
    };
  };

  /** What can be done with the chosen row or column, in a menu. */
  openMenu(what: 'row' | 'column'): Promise<void> {
    const name = what === 'column' ? 'What can be done with the column' : 'What can be done with the row and its cells';
    const acts = lineCommands[what].map((id) => this.acts(id)).filter((act) => act.usable);
    return this.perform({ do: 'open slip', slip: 'lines', asked: { name, acts } });
  }

  /** True where the keys are those of a command that can be used now. */
  press(event: KeyboardEvent): boolean {
    const found = commandFor(event, this.state);
    if (found) this.do(found);
    return found !== undefined;
  }

  readonly do = (asked: Asked): void => {
    void (asked.atOnce ? this.#run(asked) : this.#turn.take(() => this.#run(asked)));
  };

  /** The book is put away: what still waits there is nothing that the next one waits for. */
  leave(): void {
    this.#turn = new Turn();
  }

  clear(): void {
    this.do({ run: clear });
  }

  paste(pasted: Wishes['paste']): void {
    this.do({ run: pasting(pasted) });
  }

  /** What was typed follows what was asked for before. */
  type(wish: Wishes['type']): void {
    const { typing } = this.#shell;
    const shown = typing.show(wish);
    void this.#turn.take(async () => void typing.type(wish, shown));
  }

  async answer(wish: Wishes['answer']): Promise<void> {
    wish.taken(await this.#turn.take(async () => this.#shell.typing.answer(wish)));
  }

  /** A change that a slip or an element makes, which hears what comes of it. */
  change(wish: Wishes['change']): void {
    void this.#turn.take(async () => {
      const { typing } = this.#shell;
      // Without anything to wait for it is made in the turn that asks.
      if (typing.isReading) await typing.read();
      this.#change(wish);
    });
  }

  #change({ command: made, answered, plain }: Wishes['change']): void {
    const answer = this.#shell.session?.run(made);
    if (!answer) return;
    // A refusal that the one who asked shows is only said aloud.
    if (isRefused(answer)) this.#shell.telling.tell(answer.message, answered === undefined);
    else if (!plain) void this.#tell(answer);
    answered?.(answer);
  }

  async #run({ run, when, settled }: Asked): Promise<void> {
    const { session, telling, typing } = this.#shell;
    if (settled) await session?.settled();
    for (let tries = 0; tries < MOST_TRIES; tries++) {
      const { state } = this;
      if (when && !when(state)) return;
      const outcome = await run(state);
      if (isRefused(outcome)) {
        telling.tell(outcome.message, true);
        return;
      }
      const steps = [outcome].flat();
      // What was typed before is in the book before anything else changes it.
      if (steps.some(changesBook)) await typing.read();
      if (this.#shell.session !== session) return;
      if (steps.some(isChange) && session?.book !== state.book) continue;
      for (const step of steps) await this.#take(step);
      return;
    }
    telling.tell('The book changed meanwhile. Try again.', true);
  }

  async #take(step: Change | Effect): Promise<void> {
    if (!isChange(step)) return this.perform(step);
    this.#shell.session?.run(() => step);
    await this.#tell(step);
  }

  /** What was done, and which scenarios it changed besides. */
  async #tell({ label, edits }: Change): Promise<void> {
    const { session, telling } = this.#shell;
    const book = session?.book;
    const inScenarios = book?.tables.some(({ id, form }) => form === 'scenarios' && edits.some((edit) => edit.at === 'cell' && edit.table === id));
    const also = book && inScenarios ? (await import('./scenario-words.ts')).alsoSaid(book, { label, edits }) : '';
    telling.tell([label, also].filter(Boolean).map(sentence).join(' '), true);
  }

  /** Every effect that there is: one that is forgotten here does not compile. */
  async perform(effect: Effect): Promise<void> {
    const { session, telling, whereabouts, typing, entering, slips } = this.#shell;
    switch (effect.do) {
      case 'undo':
      case 'redo':
        return this.#step(effect.do);
      case 'say':
        return telling.tell(effect.text, effect.shown);
      case 'show page':
        return whereabouts.show(effect.page);
      case 'take up piece':
        await this.#shell.updateComplete;
        return this.#shell.shownPage?.focusPiece(effect.block);
      case 'write text':
        return this.#shell.shownPage?.write(effect.text);
      case 'choose': {
        const table = session?.book.tables.find((each) => each.id === effect.table || each.name === effect.table);
        if (!table) return;
        whereabouts.choose({ place: placeAt(table, effect.near), anchor: effect.far && placeAt(table, effect.far), follow: effect.follow });
        if (effect.follow) await this.#shell.takeCell();
        return;
      }
      case 'choose on':
        whereabouts.chooseOn();
        return telling.tell('Point at the other corner of the block.', true);
      case 'type':
        return void typing.type(effect);
      case 'open slip':
        return slips.openSlip(effect);
      case 'send out': {
        if (!session) return;
        const { sendOut } = await import('./book-parts.ts');
        return telling.tell(`Sent out ${await sendOut(effect.what, session.book, session.values)}.`, true);
      }
      case 'clip': {
        const { clip } = await fetchClip();
        const said = await clip(effect.clip);
        return said === undefined ? undefined : telling.tell(said, true);
      }
      case 'find command':
        return this.#shell.list.open(this.state, this.do);
      case 'bring in':
        return void entering.open({ what: 'file' });
      case 'print':
        return window.print();
      case 'copy working': {
        const working = this.#shell.querySelector<ObWorking>('ob-working');
        return working ? telling.tell(await working.copy(), true) : undefined;
      }
      case 'print working':
        return printWorking();
      case 'go to shelf':
        return void entering.toShelf();
      case 'go back':
        return whereabouts.goBack();
      case 'go to working':
        return goToWorking(this.#shell);
      case 'switch light':
        return telling.tell(switchLight() === 'night' ? 'Night look.' : 'Day look.');
      default:
        effect satisfies never;
    }
  }

  #step(which: 'undo' | 'redo'): void {
    const { session, telling } = this.#shell;
    const change = which === 'undo' ? session?.undo() : session?.redo();
    if (change) telling.tell(sentence(`${which === 'undo' ? 'Taken back' : 'Made again'}: ${change.label}`), true);
  }
}

const changesBook = (step: Change | Effect): boolean => isChange(step) || step.do === 'undo' || step.do === 'redo';
