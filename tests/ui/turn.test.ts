/** The order in which the page does what it is asked for. */
import { describe, expect, it } from 'vitest';
import { Turn } from '../../src/ui/shell/turn.ts';

/** Something that takes until it is let go on. */
function held(): { readonly goOn: () => void; readonly until: Promise<void> } {
  let goOn = (): void => {};
  const until = new Promise<void>((resolve) => {
    goOn = resolve;
  });
  return { goOn, until };
}

describe('what is asked for', () => {
  it('is begun at once where nothing is being done', async () => {
    const turn = new Turn();
    const done: string[] = [];
    const first = turn.take(async () => void done.push('first'));
    expect(done).toEqual(['first']);
    await first;
    await Promise.resolve();
    await Promise.resolve();
    void turn.take(async () => void done.push('second'));
    expect(done).toEqual(['first', 'second']);
  });

  it('waits for what was asked before, and keeps its order', async () => {
    const turn = new Turn();
    const done: string[] = [];
    const { goOn, until } = held();
    void turn.take(async () => {
      await until;
      done.push('fetched');
    });
    const others = ['typed', 'taken back'].map((what) => turn.take(async () => void done.push(what)));
    await new Promise((resolve) => setTimeout(resolve, 5));
    expect(done).toEqual([]);
    goOn();
    await Promise.all(others);
    expect(done).toEqual(['fetched', 'typed', 'taken back']);
  });

  it('goes on though what was asked before failed; whoever asked for that hears it', async () => {
    const turn = new Turn();
    const { goOn, until } = held();
    const failing = turn.take(async () => {
      await until;
      throw new Error('It could not be fetched.');
    });
    const next = turn.take(async () => 'done');
    goOn();
    await expect(failing).rejects.toThrow('It could not be fetched.');
    expect(await next).toBe('done');
  });
});
