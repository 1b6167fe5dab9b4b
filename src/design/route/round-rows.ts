import { cross3, direction, dot3, length3, squareTo, subtract, type Vector } from '../../base/vectors.js';
import type { BendRow, CentreLineRow } from '../../geom/centre-line.js';
import { JOINT_TAKES_UP } from '../routes-by-hand.js';
import type { Candidate } from './candidate.js';
import type { RouteProblem, RouteSlot, RouteStart } from './problem.js';
import { rowsOf } from './record.js';
import { bendsAbout, bendsInto, onward, type Course } from './round-bends.js';
import { roundStraights } from './round-straights.js';

/** Ways found that are enough to choose from. */
const ENOUGH_WAYS = 600;

/** One way of rounding a primary: rows in whole steps, and how far they miss the slot (mm, rad). */
interface RoundedRows {
  readonly rows: readonly CentreLineRow[];
  readonly misfit: { readonly distance: number; readonly angle: number };
}

/** How much a misfit weighs: 0 where there is none, 2 where it is the most there may be. */
export const weightOf = ({ misfit }: RoundedRows): number =>
  misfit.distance / JOINT_TAKES_UP.distance + misfit.angle / JOINT_TAKES_UP.angle;

/**
 * Ways of rounding a primary to whole half degrees and half millimetres that still meet its slot, the least
 * misfit first. All bends but the last are rounded to what lies about them, the last one turns the course to the
 * slot's direction, and the straights follow. With two bends all that lies within reach is looked at, with more
 * a seeded draw. Straights keep the job's least, angles its limits, the length lies between `from` and `to` and
 * near `aim` where the straights leave room for that.
 */
export function roundedRows(
  problem: RouteProblem,
  route: Candidate,
  lengths: { readonly from: number; readonly aim: number; readonly to: number },
  seed: number,
): readonly RoundedRows[] {
  const start = problem.starts[route.start] as RouteStart;
  const slot = problem.slots[route.slot] as RouteSlot;
  const rows = rowsOf(problem, route);
  const bends = rows.flatMap((row) => ('clr' in row ? [row] : []));
  const near = rows.flatMap((row) => ('clr' in row ? [] : [row.straight]));
  const last = bends.at(-1);
  if (last === undefined) return [];
  const { leastAngle, largestAngle, between, lastStraight } = problem.limits;
  const { stub } = start;
  const least = near.map((_, i) => (i === 0 ? stub : i === bends.length ? lastStraight : between));
  const allowed = ({ angle }: BendRow): boolean => angle >= leastAngle && angle <= largestAngle;
  const flow = direction(start.direction);
  const begun: Course = { flows: [flow], toward: direction(squareTo(start.clockReference, flow)) };
  const way = subtract(slot.at, start.at);
  const found: RoundedRows[] = [];
  for (const free of bendsAbout(bends.slice(0, -1), seed)) {
    if (found.length >= ENOUGH_WAYS) break;
    if (!free.every(allowed)) continue;
    const course = free.reduce(onward, begun);
    for (const closing of bendsInto(course, last.clr, slot.direction, JOINT_TAKES_UP.angle)) {
      if (!allowed(closing)) continue;
      const all = [...free, closing];
      const { flows } = onward(course, closing);
      const angle = angleBetween(flows.at(-1) as Vector, slot.direction);
      if (angle > JOINT_TAKES_UP.angle) continue;
      const frame = {
        flows,
        gap: gapOf(way, all, flows),
        arcs: all.reduce((sum, bend) => sum + bend.clr * bend.angle, 0),
      };
      const whole = roundStraights(frame, near, least, lengths, JOINT_TAKES_UP.distance);
      if (whole === undefined) continue;
      found.push({
        rows: whole.straights.flatMap((straight, i): CentreLineRow[] => {
          const bend = all[i];
          return bend ? [{ straight }, bend] : [{ straight }];
        }),
        misfit: { distance: whole.distance, angle },
      });
    }
  }
  return found.sort((a, b) => weightOf(a) - weightOf(b));
}

const angleBetween = (a: Vector, b: Vector): number => Math.atan2(length3(cross3(a, b)), dot3(a, b));

/** What the straights have to span: the way from port to slot less both tangents of every bend, mm. */
function gapOf(way: Vector, bends: readonly BendRow[], flows: readonly Vector[]): Vector {
  let [x, y, z] = way;
  bends.forEach(({ clr, angle }, i) => {
    const tangent = clr * Math.tan(angle / 2);
    for (const flow of [flows[i] as Vector, flows[i + 1] as Vector]) {
      x -= tangent * flow[0];
      y -= tangent * flow[1];
      z -= tangent * flow[2];
    }
  });
  return [x, y, z];
}
