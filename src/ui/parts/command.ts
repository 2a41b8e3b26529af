/** What a command is, and what commands work on. */
import type { Verb } from '../blocks/verbs.ts';
import type { Shape } from '../commands/shape.ts';

/** What goes out as a file. */
export type SentOut = 'book' | 'wide' | 'tidy' | 'not placed';

/** What commands work on. */
export interface Desk {
  readonly bookOpen: boolean;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  /** A cell of a comparing table is chosen; its scenario's letter. */
  readonly scenario: string | undefined;
  /** The chosen given is one that could be "same as" the base again; the base's letter. */
  readonly sameAs: string | undefined;
  readonly canDrop: boolean;
  /** The chosen cell holds, or is to hold, a number that has a unit or may have one. */
  readonly quantity: boolean;
  /** And its row is one quantity across several columns. */
  readonly quantityRow: boolean;
  /** In which measures the open book is shown. */
  readonly measures: 'metric' | 'US customary' | undefined;
  readonly hasMend: boolean;
  readonly canReturn: boolean;
  readonly pages: readonly { readonly id: string; readonly title: string }[];
  /** The piece of the page that was last in hand, by its block's id. */
  piece: string | undefined;
  /** Whether the page that is shown, or the piece in hand, can be changed so. */
  can(verb: Verb): boolean;
  arrange(verb: Verb): void;
  /** What is chosen in a table, for the commands that reshape it. */
  readonly shape: Shape | undefined;
  reshape(verb: string): void;
  undo(): void;
  redo(): void;
  sendOut(what: SentOut): void;
  /** The book holds records of a file that found no place in it. */
  readonly hasNotPlaced: boolean;
  bringIn(): void;
  print(): void;
  find(): void;
  shelf(): void;
  show(page: string): void;
  scenarioDo(verb: 'add' | 'drop' | 'same' | 'base'): void;
  mend(): Promise<void>;
  light(): void;
  goBack(): void;
  toWorking(): void;
  rename(): void;
  askUnit(what: 'cell' | 'row'): void;
  /** The book has a brief. */
  readonly hasQuestions: boolean;
  askQuestions(): void;
  /** The book holds readings against a plan. */
  readonly hasFit: boolean;
  carryFit(): void;
  switchMeasures(): void;
  /** The template of the open book checks what it does not. */
  readonly hasLacks: boolean;
  takeIn(): Promise<void>;
}

export interface Command {
  readonly id: string;
  readonly label: string | ((desk: Desk) => string);
  /** Other words by which it may be looked for. */
  readonly words: string;
  /** As it is shown: `Ctrl Z`. */
  readonly keys?: string;
  readonly presses?: (event: KeyboardEvent) => boolean;
  readonly when: (desk: Desk) => boolean;
  readonly run: (desk: Desk) => void;
}
