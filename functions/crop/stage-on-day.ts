import { say } from '../check-args.ts';
import { define, refuse } from '../define.ts';

export const STAGE_ON_DAY = define({
  name: 'STAGE.ON.DAY',
  family: 'Crop',
  summary: 'The stage that a crop is in on a day after sowing.',
  use: 'With a plan of stages and how many days each takes. The day of sowing is day 1; the last day of a stage still belongs to it.',
  formula: 'first stage whose days, summed, reach the day',
  params: [
    {
      name: 'plan',
      quantity: 'plan of stages',
      unit: 'mixed',
      shape: 'range',
      columns: ['text', 'd'],
      meaning: 'rows of stage and its number of days; a row of headings is passed over',
    },
    { name: 'day', quantity: 'day after sowing', unit: 'd', meaning: '1 is the day of sowing', atLeast: 1, atMost: 10000 },
  ],
  returns: { quantity: 'stage', unit: 'text' },
  source: 'By counting days',
  unchecked: 'It counts days in the user’s own plan.',
  examples: [
    { formula: 'STAGE.ON.DAY({"dark",3;"lit",7},3)', gives: 'dark' },
    { formula: 'STAGE.ON.DAY({"dark",3;"lit",7},4)', gives: 'lit' },
  ],
  work: ([plan, day], show) => {
    let end = 0;
    for (const [i, [stage, days]] of plan.map((row) => [row[0] ?? null, row[1] ?? null] as const).entries()) {
      if ((stage === null && days === null) || (i === 0 && typeof days === 'string')) continue;
      if (typeof days !== 'number' || days < 0) return refuse(`STAGE.ON.DAY: row ${i + 1} of the plan needs a number of days in d, 0 or more.`);
      if (stage === null) return refuse(`STAGE.ON.DAY: row ${i + 1} of the plan has no stage.`);
      end += days;
      if (day <= end + 1e-9) {
        show?.note(`“${stage}” lasts to day ${say(end)}`);
        return String(stage);
      }
    }
    return refuse(end === 0 ? 'STAGE.ON.DAY: the plan is empty.' : `STAGE.ON.DAY: the plan ends on day ${say(end)}; day is ${say(day)} d.`);
  },
});
