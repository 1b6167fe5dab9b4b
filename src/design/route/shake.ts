import type { Candidate } from './candidate.js';
import type { RouteProblem } from './problem.js';

/** Moves the points of a route at random by steps of a size (mm): both arms along their axes, every inner point freely. */
export function shake(
  problem: RouteProblem,
  route: Candidate,
  step: number,
  draw: () => number,
  points: Float64Array,
): void {
  const d = (problem.starts[route.start] as RouteProblem['starts'][number]).direction;
  const e = (problem.slots[route.slot] as RouteProblem['slots'][number]).direction;
  const [first, last] = [draw() * step, draw() * step];
  for (let c = 0; c < 3; c++) {
    points[3 + c] = (points[3 + c] as number) + first * (d[c] as number);
    points[3 * route.bends + c] = (points[3 * route.bends + c] as number) + last * (e[c] as number);
  }
  for (let m = 6; m < 3 * route.bends; m++) points[m] = (points[m] as number) + draw() * step;
}
