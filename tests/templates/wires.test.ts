/**
 * What a wire carries, what protects it, which outputs are limited circuits, and what a breaker takes, in every template that has them.
 * Two loaded cores of flexible cord: 0.5 mm² 3 A, 0.75 mm² 6 A, 1 mm² 10 A (IEC 60335-1, Household and similar electrical appliances, Safety, table 11);
 * AWG 18: two loaded cores 10 A, three 7 A (NFPA 70, National Electrical Code, table 400.5(A)(1)), four to six 80 % of the latter (table 400.5(A)(3)).
 */
import { describe, expect, test } from 'vitest';
import type { Session } from '../../src/session.ts';
import { inside, slugs, templateBook } from './open-template.ts';
import { entryOf, fill, has, row, said } from './rows.ts';

/** The supply of A, and the place of what its sheet says. */
const ofSupply = (session: Session, heading: string): string => entryOf(session, 'Supplies', String(row(session, 'supply')), heading);

describe.each(slugs)('the wire in %s', (slug) => {
  test('carries what its size carries, less in warm air, and what nobody knows is unknown', () =>
    inside(slug, async (session) => {
      // The air of a rack's top tier is its own; elsewhere it is what is given, and no warmer than 30 °C here.
      const air = has(session, 'top_air') ? Number(row(session, 'top_air', '°C')) : 25;
      const share = Math.min(1, Math.sqrt((60 - air) / 30));
      const carries = async (...givens: Parameters<typeof fill>[1][]): Promise<string | number> => {
        await fill(session, ...givens);
        return row(session, 'wire_carries', 'A');
      };
      expect(await carries(['wire_area', '0.5 mm²'])).toBeCloseTo(3 * share, 9);
      expect(await carries(['wire_area', '0.75 mm²'])).toBeCloseTo(6 * share, 9);
      expect(await carries(['wire_area', '6 mm²'])).toBe('unknown');
      expect(row(session, 'c_wire')).toMatch(/^unknown/);
      expect(await carries(['wire_area', '1 mm²'])).toBeCloseTo(10 * share, 9);
      expect(await carries(['wire_cores', '3'])).toBe('unknown');
      expect(await carries(['wire_gauge', '18'])).toBeCloseTo(7 * share, 9);
      expect(await carries(['wire_cores', '4'])).toBeCloseTo(0.8 * 7 * share, 9);
      expect(await carries(['wire_cores', '2'])).toBeCloseTo(10 * share, 9);
      if (!has(session, 'top_air')) {
        // √((60 − 45) / (60 − 30)) of it, and of a cable for 90 °C √((90 − 45) / (90 − 30)).
        expect(await carries(['ambient', '45 °C'])).toBeCloseTo(10 * Math.sqrt(15 / 30), 9);
        expect(await carries(['wire_made_for', '90 °C'])).toBeCloseTo(10 * Math.sqrt(45 / 60), 9);
      }
    }));

  test('has a fuse that stands the load and spares the wire, or none where no more can flow than the wire carries', () =>
    inside(slug, async (session) => {
      expect(row(session, 'c_fuse')).toMatch(/^holds/);
      // 1.25 times a load of 0.75 A or more is more than half an ampere.
      await fill(session, ['fuse', '0.5 A']);
      expect(row(session, 'c_fuse')).toMatch(/^fails/);
      expect(row(session, 'verdict')).toMatch(/^fails.*Fuse of each run/);
      await fill(session, ['fuse', '30 A']);
      expect(row(session, 'c_fuse')).toMatch(/^fails/);
      await fill(session, ['fuse', '']);
      expect(row(session, 'c_fuse')).toMatch(/^unknown/);
      await fill(session, ['fuse', '0 A'], [ofSupply(session, 'One output gives at most'), '5 A']);
      expect(row(session, 'c_fuse')).toMatch(/^holds/);
      await fill(session, [ofSupply(session, 'One output gives at most'), '40 A']);
      expect(row(session, 'c_fuse')).toMatch(/^fails/);
      await fill(session, [ofSupply(session, 'One output gives at most'), '']);
      expect(row(session, 'c_fuse')).toMatch(/^unknown/);
    }));

  test('of a cartridge that melts late must carry more than its rating', () =>
    inside(slug, async (session) => {
      await fill(session, ['wire_area', '1 mm²'], ['fuse', '8 A']);
      expect(row(session, 'c_fuse')).toMatch(/^holds/);
      await fill(session, ['fuse_kind', 'gG']);
      // 10 A / 1.31 = 7.6 A.
      expect(row(session, 'c_fuse')).toMatch(/^fails/);
      await fill(session, ['fuse', '6 A']);
      expect(row(session, 'c_fuse')).toMatch(/^holds/);
    }));
});

describe.each(slugs.filter((slug) => templateBook(slug).names.output_limit))('a limited circuit in %s', (slug) => {
  test('is one by what the output can give and how it is marked, whatever hangs on it', () =>
    inside(slug, async (session) => {
      expect(row(session, 'c_limited')).toMatch(/^holds/);
      await fill(session, [ofSupply(session, 'One output'), '240 W']);
      expect(row(session, 'c_limited')).toMatch(/^fails/);
      await fill(session, [ofSupply(session, 'One output'), '100 W'], [ofSupply(session, 'Marked as limited'), '']);
      expect(row(session, 'c_limited')).toMatch(/^unknown/);
      await fill(session, [ofSupply(session, 'Marked as limited'), 'no']);
      expect(row(session, 'c_limited')).toMatch(/^fails/);
    }));
});

describe.each(slugs.filter((slug) => templateBook(slug).names.breaker))('breakers in %s', (slug) => {
  const limits = (session: Session): readonly number[] => [16, 20].map((amps) => Number(said(session, ofSupply(session, `Most on one ${amps} A`))));

  // Common practice, no published source: what flows in at once goes by the breaker, so a larger one takes no fewer, and a smaller one fewer in proportion.
  test('of any size take what the maker gives for the next smaller one, else fewer in proportion, and say that it is assumed', () =>
    inside(slug, async (session) => {
      const [on16 = 0, on20 = 0] = limits(session);
      const SIZES = [
        ...[6, 10, 13, 15].map((amps) => [amps, Math.floor((on16 * amps) / 16)] as const),
        [18, on16],
        ...[25, 30, 32, 40].map((amps) => [amps, on20] as const),
      ] as const;
      for (const [amps, most] of SIZES) {
        await fill(session, ['breaker', `${amps} A`]);
        expect(row(session, 'maker_limit'), `${amps} A`).toBe(most);
        expect(row(session, 'per_circuit'), `${amps} A`).toBeLessThanOrEqual(most);
        expect(row(session, 'c_circuit'), `${amps} A`).toMatch(
          new RegExp(`^(assumed|close to limit|fails), .*; limit assumed: ${most} on one ${amps} A; ask the maker$`),
        );
        expect(row(session, 'verdict'), `${amps} A`).toMatch(/\b(assumed|close to limit|fails)( \d+)?: [^;]*Circuits free/);
      }
    }));

  test('that the maker names take what the maker gives, and nothing of them is assumed', () =>
    inside(slug, async (session) => {
      for (const [i, amps] of [16, 20].entries()) {
        await fill(session, ['breaker', `${amps} A`]);
        expect(row(session, 'maker_limit')).toBe(limits(session)[i]);
        expect(row(session, 'c_circuit')).not.toMatch(/assumed|unknown/);
      }
    }));

  test('of which the maker gives one number or none go by that one, or stay unknown', () =>
    inside(slug, async (session) => {
      const [on16 = 0, on20 = 0] = limits(session);
      const [at16, at20] = ['Most on one 16 A', 'Most on one 20 A'].map((heading) => ofSupply(session, heading)) as [string, string];
      await fill(session, [at20, ''], ['breaker', '30 A']);
      expect(row(session, 'maker_limit')).toBe(on16);
      await fill(session, [at16, ''], [at20, String(on20)], ['breaker', '16 A']);
      expect(row(session, 'maker_limit')).toBe(Math.floor((on20 * 16) / 20));
      expect(row(session, 'c_circuit')).toMatch(/ask the maker$/);
      // One on 20 A is none for certain on 10 A.
      await fill(session, [at20, '1'], ['breaker', '10 A']);
      expect(row(session, 'c_circuit')).toMatch(/^unknown/);
      await fill(session, [at20, ''], ['breaker', '15 A']);
      expect(row(session, 'maker_limit')).toBe('unknown');
      expect(row(session, 'c_circuit')).toMatch(/^unknown/);
      expect(row(session, 'verdict')).not.toMatch(/^(holds|close to limit)/);
    }));

  test('and circuits that nobody named are said with the limit that is assumed', () =>
    inside(slug, async (session) => {
      await fill(session, ['breaker', ''], ['breaker_assumed', '15 A']);
      expect(row(session, 'c_circuit')).toMatch(/; limit assumed: \d+ of 15 A, \d+ on each; ask the maker$/);
    }));
});

test('no bench is planned with 9.4 A on a wire of half a square millimetre', () =>
  inside('trade-bench', async (session) => {
    await fill(session, ['wire_area', '0.5 mm²'], ['cable_length', '0.8 m'], ['Supplies.E3', '240 W'], ['Supplies.D3', '1'], ['output_limit', '240 W']);
    expect(row(session, 'output_amps', 'A')).toBeCloseTo(9.375, 9);
    expect(row(session, 'wire_carries', 'A')).toBe(3);
    expect(row(session, 'c_wire')).toMatch(/^fails/);
    expect(row(session, 'c_fuse')).toMatch(/^fails/);
    expect(row(session, 'verdict')).toMatch(/^fails/);
  }));

test('every run has its fuse, and what they cost is bought', () =>
  inside('trade-bench', async (session) => {
    // 240 W of a 300 W supply are five lights of 45 W: four supplies of three outputs for eighteen, twelve runs. 3 EUR for a fuse with its holder.
    const runs = 4 * 3;
    expect(row(session, 'fuses')).toBe(runs);
    const before = Number(row(session, 'buy', 'EUR'));
    await fill(session, ['fuse', '0 A']);
    expect(row(session, 'fuses')).toBe(0);
    expect(before - Number(row(session, 'buy', 'EUR'))).toBeCloseTo(3 * runs, 9);
  }));
