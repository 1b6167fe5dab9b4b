import { minus, plus, times, turned, type Point } from '../../base/points.js';
import { circleLoop, movedLoop } from '../../geom/loops.js';
import { obround } from '../../geom/shapes.js';
import type { Loop } from '../../geom/segments.js';
import type { CutBy, FlangeSpec } from '../../job/job.js';
import { hopelessHole, leastCutHole } from '../../job/tables/cutting.js';
import type { Opening, RoundHole } from '../parts.js';
import type { PlatePlan, PlateStud } from './plan.js';

/** The stud and dowel holes of one plate: round ones, and those made longer than wide. */
export interface StudHoles {
  readonly round: readonly RoundHole[];
  readonly slots: readonly Opening[];
  /** Every hole's edge by name, for the checks, with the stud's place in the job. */
  readonly edges: readonly { readonly name: string; readonly loop: Loop; readonly path: string }[];
}

/** Cut on the table, or marked for the drill where the process cannot make so small a hole well. */
export function madeHow(
  diameter: number,
  thickness: number,
  cutBy: CutBy,
  cutSmallHoles: boolean,
): RoundHole['made'] {
  const least = cutSmallHoles ? hopelessHole(cutBy, thickness) : leastCutHole(cutBy, thickness);
  return diameter < least ? 'drilled' : 'cut';
}

export const studName = (stud: PlateStud): string => `stud ${stud.number}`;

/** Makes the holes of one plate. A slot too narrow for the table is drilled at both ends and filed out. */
export function studHoles(plan: PlatePlan, flange: FlangeSpec): StudHoles {
  const round: RoundHole[] = [];
  const slots: Opening[] = [];
  const edges: { name: string; loop: Loop; path: string }[] = [];
  const how = (diameter: number): RoundHole['made'] =>
    madeHow(diameter, flange.thickness, flange.cutBy, flange.cutSmallHoles);
  const along = rowDirection(plan);
  for (const stud of plan.studs) {
    const { hole, slotted, path } = stud.stud;
    const name = studName(stud);
    if (slotted > 0) {
      const turn = Math.atan2(along[1], along[0]);
      const loop = movedLoop(obround(hole + slotted, hole), turn, stud.at);
      const end = times(along, slotted / 2);
      const drill = { diameter: hole, ends: [minus(stud.at, end), plus(stud.at, end)] as const };
      const opening = { name: `slot for ${name}`, loop, exact: undefined };
      slots.push(how(hole) === 'drilled' ? { ...opening, drill } : opening);
      edges.push({ name, loop, path });
    } else {
      round.push({ name, at: stud.at, diameter: hole, made: how(hole) });
      edges.push({ name, loop: circleLoop(stud.at, hole / 2), path });
    }
  }
  for (const [i, dowel] of plan.dowels.entries()) {
    const name = `dowel ${i + 1}`;
    round.push({ name, at: dowel.at, diameter: dowel.hole, made: how(dowel.hole) });
    edges.push({ name, loop: circleLoop(dowel.at, dowel.hole / 2), path: dowel.path });
  }
  return { round, slots, edges };
}

/** The way a hot flange grows: along its ports, or along its own right where it holds one. */
export function rowDirection(plan: PlatePlan): Point {
  const first = plan.ports[0];
  const last = plan.ports.at(-1);
  if (first === undefined || last === undefined || first === last) return turned([1, 0], first?.turn ?? 0);
  const run = minus(last.at, first.at);
  return times(run, 1 / Math.hypot(run[0], run[1]));
}
