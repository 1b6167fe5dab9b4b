import { tolerance } from '../../base/tolerance.js';
import { leastDistanceTo } from '../../geom/solids.js';
import { armReach, type ArmReach } from './arm-reach.js';
import {
  keepsClear,
  keepsClearOfItself,
  lineThrough,
  placeArms,
  placeEnds,
  scratchPoints,
} from './candidate.js';
import { cellOf, quartersOf, type Cell } from './cells.js';
import { tellCertainPoints } from './certain-points.js';
import { keptCandidate } from './kept-candidate.js';
import { surroundingsOf, type RouteProblem } from './problem.js';
import { keepsLimits, weldsOfLine } from './rules.js';
import { axesMeet, boundFrom, leastWeldsOf, type WeldBound } from './weld-bound.js';

/** Lengths are told apart by bins of this width, mm. */
export const BIN = 5;
/** First and last half width of a cell, mm; from the second on, routes are tried at its middle. */
const COARSEST = 16;
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
 */
export function proveBound(problem: RouteProblem, finest: number): WeldBound {
  const { window } = problem.limits;
  const bins = Math.floor((window.to - window.from) / BIN) + 1;
  const least = leastWeldsOf(problem);
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
      });
    }),
  );
  return boundFrom(problem, cost, BIN);
}

/** Fewest welds that any two-bend route of the cell could have: by the shortest that its straights may be. */
export function cellMayBeFewest(problem: RouteProblem, clrs: readonly [number, number], cell: Cell): boolean {
  const legs = clrs.map((clr) => problem.stock.find((one) => one.clr === clr)?.leg ?? 0);
  // Two legs cover two of three straights: the first bend's either side of it, the last bend's either side.
  const [one, two] = legs as [number, number];
  const [first, middle, last] = [cell.first[0], cell.middle[0], cell.last[0]];
  return (
    (first <= one && (middle <= two || last <= two)) ||
    (middle <= one && last <= two) ||
    stockKeepsBothLegs(problem)
  );
}

const stockKeepsBothLegs = (problem: RouteProblem): boolean => leastWeldsOf(problem)(2) < 3;

/** Whether a point certain to be near every tube of the cell stands too deep in an obstacle. */
export function cellIsBlocked(
  problem: RouteProblem,
  start: number,
  slot: number,
  clrs: readonly [number, number],
  cell: Cell,
): boolean {
  const around = surroundingsOf(problem, start, slot);
  const { until } = (problem.starts[start] as RouteProblem['starts'][number]).waiver;
  const radius = problem.od / 2;
  return tellCertainPoints(problem, start, slot, clrs, cell, (x, y, z, moves, _, station) => {
    const set = station > until ? around.middle : around.beginning;
    return leastDistanceTo(set, x, y, z) - radius < -moves - tolerance.samePoint;
  });
}

/** The cells that a search over both arms begins with. */
export function* firstCells({
  limits,
  stock,
}: RouteProblem): Generator<{ a: number; b: number; half: number }> {
  // An intersection point stands further out than its straight and half its arc by no more than this.
  const widest = Math.max(...stock.map(({ clr }) => clr));
  const beyond = 2 * widest * (Math.tan(limits.largestAngle / 2) - limits.largestAngle / 2);
  const most = limits.window.to + 2 * beyond;
  for (let a = limits.stub + COARSEST; a < most + COARSEST; a += 2 * COARSEST)
    for (let b = limits.lastStraight + COARSEST; b < most + COARSEST; b += 2 * COARSEST)
      yield { a, b, half: COARSEST };
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
