import { type Refusal, refuse } from '../define.ts';

/** A refusal with the name of the function that was asked; its sentence goes on after the colon. */
export const named = (name: string, { message }: Refusal): Refusal =>
  refuse(`${name}: ${message.replace(/^[A-Z](?=[a-z ])/, (letter) => letter.toLowerCase())}`);
