/** The event by which a page without workers gives a port to what it loaded in place of one. */
export const IN_PAGE = 'overbench engine';

export interface InPage {
  readonly port: MessagePort;
  /** What it is started for. */
  readonly what: string;
}

/** What workers are started for. */
export const WORKING_OUT = 'engine';
export const PROPOSING = 'proposing';
