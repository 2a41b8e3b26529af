/** The supplies and fuses with which an arrangement can be run, whatever its height, and what each costs. */
import type { Part } from './anatomy.ts';
import type { Fed, Probe } from './probe.ts';
import type { Arrangement, Height, Space } from './space.ts';

/** Checks by what they hang on: those that know nothing of height and dimming are asked once for all heights. */
export interface FedChecks {
  /** They hang on the supply and not on the fuse, and on nothing that is not known before the height. */
  readonly supply: readonly number[];
  readonly fuse: readonly number[];
  /** They hang on height or dimming too. */
  readonly late: readonly number[];
}

export interface Priced extends Fed {
  readonly annual: number;
}

export interface FedMiss {
  readonly fed: Fed;
  /** Places of the checks that do not hold. */
  readonly fails: readonly number[];
}

const OF_COUNT: ReadonlySet<Part> = new Set(['fixture', 'supply', 'fuse']);
const OF_COST: ReadonlySet<Part> = new Set(['fixture', 'supply', 'fuse', 'dim']);

export class Feeds {
  readonly #probe: Probe;
  readonly #space: Space;
  readonly #checks: FedChecks;
  /** Whether what is asked here hangs on the arrangement by its fixture and its number of lights alone: then so many lights are asked about once. */
  readonly #byCount: boolean;
  readonly #costByCount: boolean;
  readonly #found = new Map<string, readonly Fed[]>();
  readonly #cheapest = new Map<string, Priced>();
  readonly #missed = new Map<string, readonly FedMiss[]>();
  readonly #suiting = new Map<string, readonly string[]>();
  /**
   * A fuse that costs what an earlier one costs, whatever the height and the dimming, wins nothing: where all cells by which the fuse goes into the cost say
   * the same, and hang on neither, so does the cost. What is asked later must not hang on the fuse.
   */
  readonly #fuseEntries: (() => readonly unknown[]) | undefined;

  constructor(probe: Probe, space: Space, checks: FedChecks) {
    this.#probe = probe;
    this.#space = space;
    this.#checks = checks;
    const { count, annual } = probe.asked;
    const within = (i: number, parts: ReadonlySet<Part>): boolean => [...probe.hangsOn(i, count)].every((part) => parts.has(part));
    this.#byCount = [...checks.supply, ...checks.fuse].every((i) => within(i, OF_COUNT));
    const free = !probe.parts.includes('fuse') || checks.late.some((i) => probe.hangs(i, ['fuse']));
    this.#fuseEntries = free ? undefined : probe.entries(annual === undefined ? [] : [annual], 'fuse', ['height', 'dim']);
    this.#costByCount = this.#byCount && checks.late.length === 0 && (annual === undefined || within(annual, OF_COST));
  }

  /** For the arrangement that was put, which can be built. */
  of(arrangement: Arrangement, height: Height): readonly Fed[] {
    if (!this.#byCount) return this.#search(arrangement, height);
    const key = this.#key(arrangement.fixture);
    const known = this.#found.get(key) ?? this.#search(arrangement, height);
    this.#found.set(key, known);
    return known;
  }

  #key(fixture: string): string {
    return `${this.#probe.number(this.#probe.asked.count)} ${fixture}`;
  }

  #search(arrangement: Arrangement, height: Height): readonly Fed[] {
    const { own, dims } = this.#probe;
    const mains = this.#probe.isMains();
    const found: Fed[] = [];
    for (const supply of mains ? [own.supply ?? ''] : this.#suits(arrangement, height)) {
      const seen: (readonly unknown[])[] = [];
      let suits: boolean | undefined;
      for (const fuse of mains ? [own.fuse ?? ''] : this.#space.fuses) {
        this.#probe.put(arrangement, height, dims.high, { supply, fuse });
        suits ??= this.#holds(this.#checks.supply);
        if (!suits) break;
        if (this.#holds(this.#checks.fuse) && this.#isOther(seen)) found.push({ supply, fuse });
      }
    }
    return found;
  }

  /** Checks that know of an arrangement only which fixture it is, such as whether the volts are the same, are asked once a fixture. */
  #suits(arrangement: Arrangement, height: Height): readonly string[] {
    const known = this.#suiting.get(arrangement.fixture);
    if (known) return known;
    const plain = this.#checks.supply.filter((i) => [...this.#probe.hangsOn(i)].every((part) => part === 'fixture' || part === 'supply'));
    const found = this.#space.supplies.filter((supply) => {
      this.#probe.put(arrangement, height, this.#probe.dims.high, { supply, fuse: this.#space.fuses[0] ?? '' });
      return this.#holds(plain);
    });
    this.#suiting.set(arrangement.fixture, found);
    return found;
  }

  /** Where no supply and no fuse will do: those with which the fewest checks fail, one for each set of checks. */
  misses(arrangement: Arrangement, height: Height): readonly FedMiss[] {
    const key = this.#byCount ? this.#key(arrangement.fixture) : '';
    const known = this.#byCount ? this.#missed.get(key) : undefined;
    if (known) return known;
    const { own, dims } = this.#probe;
    const mains = this.#probe.isMains();
    const suiting = mains ? [own.supply ?? ''] : this.#suits(arrangement, height);
    const sets = new Map<string, FedMiss>();
    for (const supply of suiting.length > 0 ? suiting : this.#space.supplies) {
      for (const fuse of mains ? [own.fuse ?? ''] : this.#space.fuses) {
        this.#probe.put(arrangement, height, dims.high, { supply, fuse });
        const fails = [...this.#checks.supply, ...this.#checks.fuse].filter((i) => !this.#probe.stands(i));
        const set = fails.join(' ');
        if (!sets.has(set)) sets.set(set, { fed: { supply, fuse }, fails });
      }
    }
    const fewest = Math.min(...[...sets.values()].map(({ fails }) => fails.length));
    const found = [...sets.values()].filter(({ fails }) => fails.length === fewest);
    this.#missed.set(key, found);
    return found;
  }

  #holds(checks: readonly number[]): boolean {
    return checks.every((i) => this.#probe.stands(i));
  }

  /** Whether a fuse costs another than those before it, or may. */
  #isOther(seen: (readonly unknown[])[]): boolean {
    const entries = this.#fuseEntries;
    if (!entries) return true;
    const values = entries();
    if (seen.some((known) => known.every((value, i) => Object.is(value, values[i])))) return false;
    seen.push(values);
    return true;
  }

  /** The cheapest with which what hangs on height and dimming holds too; of those that cost the same the first. */
  cheapest(arrangement: Arrangement, height: Height, dim: number, feds: readonly Fed[]): Priced | undefined {
    const key = this.#costByCount && this.#found.get(this.#key(arrangement.fixture)) === feds ? `${dim} ${this.#key(arrangement.fixture)}` : undefined;
    const known = key === undefined ? undefined : this.#cheapest.get(key);
    if (known) return known;
    const { annual } = this.#probe.asked;
    const put = (fed: Fed): void => this.#probe.put(arrangement, height, dim, fed);
    const priced = feds.map((fed): Priced => {
      put(fed);
      return { ...fed, annual: this.#probe.number(annual) };
    });
    if (annual !== undefined) priced.sort((a, b) => a.annual - b.annual || Number(Number.isNaN(a.annual)) - Number(Number.isNaN(b.annual)));
    const { late } = this.#checks;
    const found = priced.find((fed) => {
      if (late.length === 0) return true;
      put(fed);
      return this.#holds(late);
    });
    if (key !== undefined && found) this.#cheapest.set(key, found);
    return found;
  }
}
