import type { Candidate } from './candidate.js';
import { fill, type FillOrder } from './fill.js';
import { libraryAt, type LibraryOrder } from './library.js';
import { mayBeTwoBends, type MayBe, type MayBeOrder } from './may-be.js';
import type { RouteProblem } from './problem.js';
import { settleBins, type PairOrder } from './settle-bins.js';
import type { PackedWays } from './ways.js';

/** The parts of a search that need nothing of each other: what is ordered, and what comes of it. */
export interface Work {
  /** Routes of one port and slot. */
  readonly fill: { readonly order: FillOrder; readonly made: PackedWays };
  /** Sound routes of one length for one port and slot. */
  readonly library: { readonly order: LibraryOrder; readonly made: readonly Candidate[] };
  /** Lengths at which one port and slot may have a primary of the fewest welds. */
  readonly mayBe: { readonly order: MayBeOrder; readonly made: MayBe };
  /** Lengths at which two families of routes may get along. */
  readonly pairs: { readonly order: PairOrder; readonly made: Uint8Array };
}
export type WorkKind = keyof Work;

/** Who works off orders of one problem: this thread alone, or several. What comes of them is the same. */
export interface Crew {
  /** What comes of each order, by its place; undefined where the search was stopped before. */
  run<K extends WorkKind>(
    kind: K,
    orders: readonly Work[K]['order'][],
  ): readonly (Work[K]['made'] | undefined)[];
}

const works: {
  readonly [K in WorkKind]: (problem: RouteProblem, order: Work[K]['order']) => Work[K]['made'];
} = { fill, library: libraryAt, mayBe: mayBeTwoBends, pairs: settleBins };

/** Works off one order. It looks at nothing but the problem and the order: any thread makes the same of it. */
export const workOff = <K extends WorkKind>(
  problem: RouteProblem,
  kind: K,
  order: Work[K]['order'],
): Work[K]['made'] => works[kind](problem, order);

/** This thread alone. */
export const alone = (problem: RouteProblem, stop: () => boolean = () => false): Crew => ({
  run: (kind, orders) => orders.map((order) => (stop() ? undefined : workOff(problem, kind, order))),
});
