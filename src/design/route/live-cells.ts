import { tolerance } from '../../base/tolerance.js';
import { doubtOf, leastDistanceTo } from '../../geom/solids.js';
import type { Cell } from './cells.js';
import { tellCertainPoints } from './certain-points.js';
import { surroundingsOf, type RouteProblem } from './problem.js';
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
    // A field is exact where a tube is not clear; what a mesh only stands for may lie as much further off.
    const spare = leastDistanceTo(set, x, y, z, radius) - radius;
    return spare + doubtOf(set) < -moves - tolerance.samePoint;
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
