/** The margin beside the page: where the chosen value comes from, step by step, and what it feeds. */
export type { ObWorking, Told, WorkingCommand } from './working.ts';

import './working.ts';
