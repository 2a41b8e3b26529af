/** The command was called wrongly: one line on standard error, exit status 2. */
export class WrongUse extends Error {}

/** Something that was asked for can't be done: one line on standard error, exit status 1. */
export class Failure extends Error {}
