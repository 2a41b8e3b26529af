import { define, refuse } from '../define.ts';
import { CLOSE, NO_LIMIT } from './margin.ts';

const CODE = { unit: '1', atLeast: 0, atMost: 69, whole: true, blankAllowed: true } as const;

/** Whether a marking such as 65 answers what is asked, such as 44: dust by the first digit, water by the second. */
export function checkIp(marked: number, asked: number): string {
  const [dust, water] = [Math.floor(marked / 10), marked % 10];
  const [dustAsked, waterAsked] = [Math.floor(asked / 10), asked % 10];
  if (dust < dustAsked) return `fails, dust ${dust} and ${dustAsked} asked`;
  if (water < waterAsked) return `fails, water ${water} and ${waterAsked} asked`;
  // 7, 8 and 9 are tests of their own: a marking for immersion does not say that jets are kept out, nor one for high pressure that immersion is.
  const otherTest = water >= 7 && (waterAsked === 5 || waterAsked === 6 || (waterAsked >= 7 && water === 9 && waterAsked !== 9));
  if (otherTest) return `${CLOSE}, water ${water} is a different test from ${waterAsked}`;
  return `holds, IP ${String(marked).padStart(2, '0')} against ${String(asked).padStart(2, '0')}`;
}

export const CHECK_IP = define({
  name: 'CHECK.IP',
  family: 'Check',
  summary: 'Holds, close to limit or fails: an enclosure’s marking against the one a place asks for.',
  use: 'For fixtures and supplies in wet or dusty places: 65 for IP65. The place’s needs come from local rules. Immersion (7, 8) and high pressure (9) are tests apart from jets (5, 6).',
  formula: 'each digit of the marking ≥ the digit asked',
  params: [
    { ...CODE, name: 'marked', quantity: 'IP code', meaning: 'on the enclosure; blank means not known' },
    { ...CODE, name: 'asked', quantity: 'IP code', meaning: 'that the place needs; blank means not known' },
  ],
  returns: { quantity: 'verdict', unit: 'text' },
  source:
    'IEC 60529:1989+A2:2013, Degrees of protection provided by enclosures (IP code), clauses 5 and 6; numerals 7 to 9 do not imply 5 and 6, clause 6 (from memory)',
  caution: 'Which marking a wet place needs is set by local codes.',
  unchecked: 'It words a comparison; the wording is our own.',
  examples: [
    { formula: 'CHECK.IP(65,44)', gives: 'holds, IP 65 against 44' },
    { formula: 'CHECK.IP(20,44)', gives: 'fails, dust 2 and 4 asked' },
    { formula: 'CHECK.IP(67,65)', gives: 'close to limit, water 7 is a different test from 5' },
  ],
  work: ([marked, asked], show) => {
    if (typeof asked !== 'number') return NO_LIMIT;
    if (typeof marked !== 'number') return 'unknown, no marking given';
    for (const code of [marked, asked]) {
      if (code >= 70 || code % 10 > 9) return refuse('CHECK.IP: an IP code has a first digit of 0 to 6 and a second of 0 to 9.');
    }
    show?.note('first digit: dust and touch; second digit: water');
    return checkIp(marked, asked);
  },
});
