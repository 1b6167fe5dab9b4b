import { tolerance } from '../../base/tolerance.js';
import { doubtOf, leastDistanceTo } from '../../geom/solids.js';
import type { Cell } from './cells.js';
import { tellCertainPoints } from './certain-points.js';
import { roundAt, surroundingsOf, type RouteProblem } from './problem.js';
import { leastWeldsOf } from './weld-bound.js';

/** Half width (mm) of the cells that a search over both arms begins with. */
const COARSEST = 16;

/** Fewest welds that any two-bend route of the cell could have: by the shortest that its straights may be. */
export function cellMayBeFewest(problem: RouteProblem, clrs: readonly [number, number], cell: Cell): boolean {
  const legs = clrs.map((clr) => problem.stock.find((one) => one.clr === clr)?.leg ?? 0);
  // Two legs cover two of three straights: the first bend's either side of it, the last bend's either side.
  const [one, two] = legs as [number, number];
  const [first, middle, last] = [cell.first[0], cell.middle[0], cell.last[0]];
  return (
    (first <= one && (middle <= two || last <= two)) ||
    (middle <= one && last <= two) ||
    // Then legs may reach further together than this tells.
    leastWeldsOf(problem)(2) < 3
  );
}

/** Whether a point certain to be near every tube of the cell stands too deep in an obstacle. */
export function cellIsBlocked(
  problem: RouteProblem,
  start: number,
  slot: number,
  clrs: readonly [number, number],
  cell: Cell,
): boolean {
  const around = surroundingsOf(problem, start, slot);
  const radius = problem.od / 2;
  return tellCertainPoints(problem, start, slot, clrs, cell, (x, y, z, moves, _, station) => {
    const set = roundAt(around, station);
    // A field is exact where a tube is not clear; what a mesh only stands for may lie as much further off.
    const spare = leastDistanceTo(set, x, y, z, radius) - radius;
    return spare + doubtOf(set) < -moves - tolerance.samePoint;
  });
}

/** The cells that a search over both arms begins with, of a half width (mm). */
export function* firstCells(
  { limits, stock, starts }: RouteProblem,
  start: number,
  half = COARSEST,
): Generator<{ a: number; b: number; half: number }> {
  const { stub } = starts[start] as RouteProblem['starts'][number];
  // An intersection point stands further out than its straight and half its arc by no more than this.
  const widest = Math.max(...stock.map(({ clr }) => clr));
  const beyond = 2 * widest * (Math.tan(limits.largestAngle / 2) - limits.largestAngle / 2);
  const most = limits.window.to + 2 * beyond;
  for (let a = stub + half; a < most + half; a += 2 * half)
    for (let b = limits.lastStraight + half; b < most + half; b += 2 * half) yield { a, b, half };
}
