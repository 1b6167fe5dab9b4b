import { mixSeed } from '../../base/random.js';
import { armReach } from './arm-reach.js';
import type { Way } from './candidate.js';
import { findMoreBends } from './more-bends.js';
import { twinSieve } from './pool.js';
import type { RouteProblem } from './problem.js';
import { findTwoBends } from './two-bends.js';
import { wantedBy, type WantedBy } from './wanted.js';
import { lengthAt, packWays, roomAt, wayAt, weldsAt, type PackedWays } from './ways.js';

/** What is to be found for one port and slot in one stage. */
export interface FillOrder {
  readonly start: number;
  readonly slot: number;
  /** Of the search, and which stage it is, from 0. */
  readonly seed: number;
  readonly stage: number;
  /** Pitch (mm) of the two-bend grid. */
  readonly pitch: number;
  /** How many bends more than two are looked for, and tries at three. */
  readonly bends: readonly number[];
  readonly tries: number;
  /** Welds of a primary that nothing can better. */
  readonly fewest: number;
  readonly wanted: WantedBy;
  /** What the stage before has found. */
  readonly known: PackedWays;
}

/** Fills the pool of one port and slot: what is still wanted of before, and new routes of two bends and more. */
export function fill(problem: RouteProblem, order: FillOrder): PackedWays {
  const { start, slot, seed, stage, pitch, known } = order;
  const into: Way[] = [];
  const wanted = wantedBy(order.wanted);
  const sieve = twinSieve(order.fewest);
  const keep = (route: Way): void => {
    if (sieve(route)) into.push(route);
  };
  for (let o = 0; o < known.length; o += roomAt(known, o))
    if (wanted(lengthAt(known, o), weldsAt(known, o))) keep(wayAt(known, o, start, slot));
  const grid = { pitch, phase: ((seed + stage) % 5) / 5 };
  findTwoBends(problem, start, slot, armReach(problem, start, slot), grid, wanted, keep);
  for (const bends of order.bends) {
    const sampling = {
      bends,
      seed: mixSeed(seed, start, slot, bends, stage),
      tries: bends === 3 ? order.tries : order.tries / 2,
      enough: bends === 3 ? 4000 : 1500,
    };
    findMoreBends(problem, start, slot, sampling, wanted, keep);
  }
  return packWays(into);
}
