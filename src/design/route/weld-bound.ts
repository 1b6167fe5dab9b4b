import { tolerance } from '../../base/tolerance.js';
import { cross3, dot3, length3, subtract } from '../../base/vectors.js';
import { leastAssignment, leastAssignmentWith } from './assign.js';
import type { RouteProblem } from './problem.js';
import { binOf, type BinnedWelds } from './wanted.js';

/** What is proved about the fewest welds of any answer. */
export interface WeldBound {
  /** No answer has fewer. */
  readonly welds: number;
  /** No answer of this length (mm) has fewer. */
  at(length: number): number;
  /** Fewest welds of the other primaries where this one takes this slot, by bin of lengths. */
  restOf(start: number, slot: number): BinnedWelds;
  /** Fewest welds of any primary with so many bends. */
  leastOf(bends: number): number;
}

/**
 * Fewest welds of a primary with so many bends. From stock of a larger angle a bend keeps one leg, so one of
 * k + 1 straights is bare: k + 1. Stock used at its full angle keeps both, which saves one; so does an end
 * with no straight at all, where stub or last straight may be 0.
 */
export function leastWeldsOf({ starts, stock, limits }: RouteProblem): (bends: number) => number {
  const fullAngle = stock.some(({ leastStockAngle }) => leastStockAngle <= limits.largestAngle);
  const noEnd = Math.min(...starts.map(({ stub }) => stub), limits.lastStraight) <= tolerance.samePoint;
  // The weld at the flange, or onto what stands, is always one.
  return (bends) => Math.max(1, bends + (fullAngle || noEnd ? 0 : 1));
}

/** A bound from fewest welds by port, slot and bin of lengths, and what else is proved of each bin. */
export function boundFrom(
  problem: RouteProblem,
  bins: readonly (readonly (readonly number[])[])[],
  width: number,
  leastInBin: (bin: number) => number = () => 0,
): WeldBound {
  const { window } = problem.limits;
  const sums = bins.map((cost, bin) => Math.max(leastInBin(bin), leastAssignment(cost, problem.orders)));
  const rests = bins.map((cost) =>
    cost.map((row, i) => row.map((own, j) => leastAssignmentWith(cost, i, j, problem.orders) - own)),
  );
  const inBins = (welds: readonly number[]): BinnedWelds => ({ from: window.from, width, welds });
  const whole = inBins(sums);
  return {
    welds: Math.min(...sums),
    at: (length) => sums[binOf(whole, length)] as number,
    restOf: (start, slot) => inBins(rests.map((rest) => rest[start]?.[slot] ?? Infinity)),
    leastOf: leastWeldsOf(problem),
  };
}

/** Whether port and slot axes come so near each other that one bend, or none, might do. */
export function axesMeet({ starts, slots }: RouteProblem, i: number, j: number): boolean {
  const from = starts[i] as RouteProblem['starts'][number];
  const to = slots[j] as RouteProblem['slots'][number];
  const apart = subtract(to.at, from.at);
  const square = cross3(from.direction, to.direction);
  const sine = length3(square);
  const distance =
    sine > tolerance.sameDirection
      ? Math.abs(dot3(apart, square)) / sine
      : length3(cross3(apart, from.direction));
  return distance < tolerance.file;
}

/** What holds for any problem: a primary takes two bends, unless its port's axis and its slot's meet. */
export const noBound = (problem: RouteProblem): WeldBound =>
  boundFrom(
    problem,
    [
      problem.starts.map((_, i) =>
        problem.slots.map((_, j) =>
          leastWeldsOf(problem)(axesMeet(problem, i, j) || problem.kept[i] ? 0 : 2),
        ),
      ),
    ],
    Infinity,
  );
