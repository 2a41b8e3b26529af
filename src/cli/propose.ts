import { overClients } from './batch.ts';
import type { Verb } from './verb.ts';

export const verb: Verb = {
  usage: 'TEMPLATE CLIENTS.csv [-o PLANS.csv] [--rejected FILE] [--books DIR] [--jobs N] [--resume] [--carry COLUMN]… [--no-head], with - for standard input',
  about:
    'Proposes lights for every client of a file: which, how many, how high, how far dimmed, on which supply and fuse. Of all arrangements in which no check fails and none is unknown it gives the cheapest by the year, the most even and the one with the fewest lights, each on a line; where there is none, a line that says what stands in the way. The file of clients is as for overbench batch.',
  options: {
    output: { type: 'string', short: 'o', about: 'the file for the proposals; standard output without it' },
    rejected: { type: 'string', about: 'a file for the clients that can not be searched for, each with the reason' },
    books: { type: 'string', about: 'a folder for the book of each client, with the proposals as its scenarios' },
    jobs: { type: 'string', about: 'how many threads; as many as there are processors unless said' },
    resume: { type: 'boolean', about: 'goes on with a run that was stopped' },
    carry: { type: 'string', multiple: true, about: 'a column that comes along as it is; as often as is wanted' },
    'no-head': { type: 'boolean', about: 'leaves out the line of headings' },
  },
  run: (operands, options) => overClients(operands, options, 'proposals'),
};
