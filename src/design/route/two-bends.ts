import { leastDistanceTo } from '../../geom/solids.js';
import type { ArmReach } from './arm-reach.js';
import {
  keepsClear,
  lineThrough,
  placeArms,
  placeEnds,
  scratchPoints,
  wayFrom,
  type Way,
} from './candidate.js';
import { builtLengthOf, surroundingsOf, type RouteProblem } from './problem.js';
import { weldsOfLine } from './rules.js';
import type { Wanted } from './wanted.js';

/** Routes within this of clear are kept: they are measured again once they are brought to a length. */
const NEARLY = 3;

/** Points along the middle straight that are looked at before the whole line is. */
const LOOKS = [1 / 8, 3 / 8, 5 / 8, 7 / 8];

const points = scratchPoints();

/**
 * Two-bend routes of every length in the window at once: the first intersection point a ahead of the port,
 * the second b before the slot, over a grid of a and b with every pair of radii.
 * @param grid pitch (mm) and how far the grid is shifted, as a part of the pitch
 */
export function findTwoBends(
  problem: RouteProblem,
  start: number,
  slot: number,
  reach: ArmReach,
  grid: { readonly pitch: number; readonly phase: number },
  wanted: Wanted,
  keep: (way: Way) => void,
): void {
  const { limits, stock } = problem;
  const [from, to] = [problem.starts[start], problem.slots[slot]];
  if (from === undefined || to === undefined) throw new RangeError(`no port ${start} or slot ${slot}`);
  const [d, e] = [from.direction, to.direction];
  const { solids: middle } = surroundingsOf(problem, start, slot).middle;
  const cosLeast = Math.cos(limits.leastAngle);
  const cosLargest = Math.cos(limits.largestAngle);
  const widest = Math.max(...stock.map(({ clr }) => clr));
  const nearly = problem.od / 2 - NEARLY;
  const before = builtLengthOf(problem, start);
  const [shortest, longest] = [limits.window.from - grid.pitch, limits.window.to + grid.pitch];
  // An intersection point stands further out than its straight by what its bend's tangent outdoes its arc.
  const beyond = widest * (Math.tan(limits.largestAngle / 2) - limits.largestAngle / 2);
  placeEnds(problem, start, slot, 2, points);
  for (let a = from.stub + 1 + grid.phase * grid.pitch; a < longest + beyond; a += grid.pitch)
    for (let b = limits.lastStraight + 1 + grid.phase * grid.pitch; b < longest + beyond; b += grid.pitch) {
      placeArms(problem, start, slot, 2, { a, b }, points);
      const x = (points[6] as number) - (points[3] as number);
      const y = (points[7] as number) - (points[4] as number);
      const z = (points[8] as number) - (points[5] as number);
      const between = Math.sqrt(x * x + y * y + z * z);
      const c1 = (x * d[0] + y * d[1] + z * d[2]) / between;
      if (!(c1 >= cosLargest && c1 <= cosLeast)) continue;
      const c2 = (x * e[0] + y * e[1] + z * e[2]) / between;
      if (!(c2 >= cosLargest && c2 <= cosLeast)) continue;
      // Tangent and arc per radius.
      const t1 = Math.sqrt((1 - c1) / (1 + c1));
      const t2 = Math.sqrt((1 - c2) / (1 + c2));
      const arc1 = Math.acos(c1);
      const arc2 = Math.acos(c2);
      let open: boolean | undefined;
      for (let i = 0; i < stock.length; i++) {
        const r1 = (stock[i] as { clr: number }).clr;
        const first = a - r1 * t1;
        if (first < from.stub || first > reach.first) continue;
        for (let j = 0; j < stock.length; j++) {
          const r2 = (stock[j] as { clr: number }).clr;
          const last = b - r2 * t2;
          if (last < limits.lastStraight || last > reach.last) continue;
          const middleStraight = between - r1 * t1 - r2 * t2;
          if (middleStraight < limits.between) continue;
          const length = before + first + middleStraight + last + r1 * arc1 + r2 * arc2;
          if (length < shortest || length > longest) continue;
          if (!wanted(length, 3)) continue;
          // The middle straight of the widest bends is part of all of them.
          if (open === undefined) {
            const [u, v] = [(widest * t1) / between, 1 - (widest * t2) / between];
            open =
              u >= v ||
              LOOKS.every((look) => {
                const f = u + (v - u) * look;
                return (
                  leastDistanceTo(
                    middle,
                    (points[3] as number) + f * x,
                    (points[4] as number) + f * y,
                    (points[5] as number) + f * z,
                    nearly,
                  ) >= nearly
                );
              });
          }
          if (!open) break;
          const clrs = [r1, r2];
          const line = lineThrough(points, clrs, 2);
          const welds = weldsOfLine(problem, start, line, clrs);
          if (!wanted(length, welds)) continue;
          if (!keepsClear(problem, line, { start, slot }, NEARLY, -NEARLY)) continue;
          keep(wayFrom(problem, { start, slot }, points, clrs, line, welds));
        }
        if (open === false) break;
      }
    }
}
