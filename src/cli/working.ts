import type { Verb } from './main.ts';
export const verb: Verb = {
  usage: '',
  options: {},
  async run() {
    return 0;
  },
};
