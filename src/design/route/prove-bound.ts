import { armReach, type ArmReach } from './arm-reach.js';
import {
  keepsClear,
  keepsClearOfItself,
  lineThrough,
  placeArms,
  placeEnds,
  scratchPoints,
} from './candidate.js';
import { cellOf, quartersOf } from './cells.js';
import { keptCandidate } from './kept-candidate.js';
import { cellIsBlocked, cellMayBeFewest, firstCells } from './live-cells.js';
import { mostTogether, type MayBeFewest, type PairProof } from './prove-pairs.js';
import type { RouteProblem } from './problem.js';
import { keepsLimits, weldsOfLine } from './rules.js';
import { axesMeet, boundFrom, leastWeldsOf, noBound, type WeldBound } from './weld-bound.js';

/** Lengths are told apart by bins of this width, mm. */
export const BIN = 5;
/** Half width of a cell (mm) from which on routes are tried at its middle. */
const TRY_AT = 8;

/** For each bin of lengths, whether a port and slot may have a two-bend primary of the fewest welds. */
export type MayBe = Uint8Array;

/**
 * A lower bound on welds, proved: for every port, slot and pair of radii the two-bend routes of the fewest
 * welds are searched cell by cell over both arms. A cell is dead where an interval leaves its limits, where
 * more straights than one are certainly longer than a leg, or where a point certain to be near every tube of
 * the cell stands deeper in an obstacle than it can move. What the cells that live reach in length may be;
 * all else takes the welds of three bends.
 * @param finest half width (mm) at which a cell that still lives is let live
 * @param pairs how hard to prove how many such primaries there can be together; not at all where left out
 */
export function proveBound(problem: RouteProblem, finest: number, pairs?: PairProof): WeldBound {
  if (problem.limits.anglesLeftOut) return noBound(problem);
  const { window } = problem.limits;
  const bins = Math.floor((window.to - window.from) / BIN) + 1;
  const least = leastWeldsOf(problem);
  let meet = false;
  const cost = Array.from({ length: bins }, () =>
    problem.starts.map(() => problem.slots.map(() => least(3))),
  );
  problem.starts.forEach((_, i) =>
    problem.slots.forEach((_, j) => {
      const kept = keptCandidate(problem, i);
      if (kept) {
        for (const of of cost) (of[i] as number[])[j] = kept.slot === j ? kept.welds : Infinity;
        return;
      }
      const may = mayBeTwoBends(problem, i, j, bins, finest);
      const fewer = axesMeet(problem, i, j);
      cost.forEach((of, bin) => {
        const row = of[i] as number[];
        if (may[bin]) row[j] = least(2);
        if (fewer) row[j] = least(0);
        meet ||= fewer;
      });
    }),
  );
  if (pairs === undefined || meet || problem.kept.some((one) => one !== undefined))
    return boundFrom(problem, cost, BIN);
  const spans = cost.map((_, bin) => ({ from: window.from + bin * BIN, to: window.from + (bin + 1) * BIN }));
  const mayBe: MayBeFewest = (i, j, bin) => cost[bin]?.[i]?.[j] === least(2);
  const together = mostTogether(problem, spans, mayBe, pairs);
  const count = problem.starts.length;
  return boundFrom(
    problem,
    cost,
    BIN,
    (bin) => count * least(3) - (together[bin] ?? count) * (least(3) - least(2)),
  );
}

const points = scratchPoints();

function mayBeTwoBends(
  problem: RouteProblem,
  start: number,
  slot: number,
  bins: number,
  finest: number,
): MayBe {
  const may: MayBe = new Uint8Array(bins);
  const reach: ArmReach = armReach(problem, start, slot);
  const { from } = problem.limits.window;
  placeEnds(problem, start, slot, 2, points);
  for (const one of problem.stock)
    for (const two of problem.stock) {
      const clrs = [one.clr, two.clr] as const;
      const stack = [...firstCells(problem)];
      for (let at = stack.pop(); at !== undefined; at = stack.pop()) {
        const cell = cellOf(problem, start, slot, clrs, reach, at);
        if (cell === undefined || !cellMayBeFewest(problem, clrs, cell)) continue;
        const low = Math.max(0, Math.floor((cell.length[0] - from) / BIN));
        const high = Math.min(bins - 1, Math.floor((cell.length[1] - from) / BIN));
        // Nothing to learn where all lengths of the cell are known to be possible.
        if (allSet(may, low, high) || cellIsBlocked(problem, start, slot, clrs, cell)) continue;
        if (at.half <= TRY_AT) tryMiddle(problem, start, slot, clrs, at, may);
        if (at.half <= finest) may.fill(1, low, high + 1);
        else stack.push(...quartersOf(at));
      }
    }
  return may;
}

function allSet(may: MayBe, low: number, high: number): boolean {
  for (let bin = low; bin <= high; bin++) if (!may[bin]) return false;
  return true;
}

/** Marks the bin of the route at the middle of a cell, where it is sound: what is there need not be proved. */
function tryMiddle(
  problem: RouteProblem,
  start: number,
  slot: number,
  clrs: readonly [number, number],
  arms: { readonly a: number; readonly b: number },
  may: MayBe,
): void {
  placeArms(problem, start, slot, 2, arms, points);
  const line = lineThrough(points, clrs, 2);
  const bin = Math.floor((line.length - problem.limits.window.from) / BIN);
  if (!(bin >= 0 && bin < may.length) || may[bin]) return;
  if (!keepsLimits(problem, line)) return;
  if (weldsOfLine(problem, start, line, clrs) > leastWeldsOf(problem)(2)) return;
  if (keepsClear(problem, line, { start, slot }, 0.5) && keepsClearOfItself(problem, line, clrs, 1))
    may[bin] = 1;
}
