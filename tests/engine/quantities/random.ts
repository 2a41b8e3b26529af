/** Repeatable chance for tests: the linear congruential generator of Knuth, TAOCP 2, 3rd ed. 1997, section 3.3.4, table 1, line 26 (MMIX). */
export function random(seed: number): () => number {
  let state = BigInt(seed);
  return () => {
    state = (state * 6364136223846793005n + 1442695040888963407n) & 0xffffffffffffffffn;
    return Number(state >> 11n) / 2 ** 53;
  };
}
