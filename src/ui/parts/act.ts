/** A command as whoever has a button for it sees it: what it does, and how, is known to the commands alone. */
export interface Act {
  readonly label: string;
  /** As they are shown: `Ctrl Z`. */
  readonly keys: string | undefined;
  /** Whether it can be done now. */
  readonly usable: boolean;
  run(): void;
}

/** The commands that an element has buttons for, by name. `piece`: it is done to this piece of the page, whichever was in hand. */
export type Acts<Name extends string> = (name: Name, piece?: string) => Act;
