import { type Refusal, refuse } from '../define.ts';

/** A refusal with the name of the function that was asked. */
export const named = (name: string, { message }: Refusal): Refusal => refuse(`${name}: ${message}`);
