import { isError, type Outcome, type Problem } from '../base/problems.js';
import type { Job } from '../job/job.js';
import { checkAsked, checkFit } from './merge/check-fit.js';
import { checkMetal, leastMetal } from './merge/check-metal.js';
import { mergeMarks, SIDE } from './merge/marks.js';
import { planMerge } from './merge/plan.js';
import { mergeRemarks, VIEW } from './merge/remarks.js';
import type { PlatePart } from './parts.js';

/**
 * The merge plate of a job: a flat plate at the collector's mouth with a hole for each of 2 to 8 primaries.
 * Its upstream face stands square on the collector's axis, `merge_plate.upstream` before the tubes' ends.
 * Where the tubes lean (welded joints) they stand wider apart there than at their ends, and each hole is the
 * shadow of its leaning tube through the thickness. Slip joints do not lean; nor does a centre tube.
 *
 * The drawing is seen looking upstream, so its z is the flow: z 0 the upstream face, z = thickness the side
 * seen, toward the outlet. x is the collector's clocking zero; the slots run counter-clockwise.
 * @returns no value where an error would make the plate scrap; warnings and notes leave it
 */
export function designMergePlate(job: Job): Outcome<PlatePart> {
  const asked = checkAsked(job);
  const { tube, collector, mergePlate: plate } = job;
  if (asked.some(isError) || tube === undefined || collector === undefined || plate === undefined)
    return { value: undefined, problems: asked };
  const plan = planMerge(tube, collector, plate, job.ports.length);
  const problems: Problem[] = [...asked, ...checkMetal(plan), ...checkFit(plan)];
  if (problems.some(isError)) return { value: undefined, problems };
  const { marks, noRoom } = plate.etch ? mergeMarks(plan, job.name) : { marks: [], noRoom: [] };
  problems.push(...noRoom.map((name) => leftOut(name, plate.edge)));
  const { tubes, centre, star, bolts, outline } = plan;
  const value: PlatePart = {
    kind: 'plate',
    name: 'merge-plate',
    family: 'merge-plate',
    title: `Merge plate for ${tubes.length} tubes`,
    material: plate.material,
    thickness: plate.thickness,
    outline,
    openings: [...tubes.map(({ opening }) => opening), ...(centre === undefined ? [] : [centre])],
    holes: [...(star === undefined ? [] : [star]), ...(bolts?.holes ?? [])],
    pockets: [],
    marks,
    view: VIEW,
    remarks: mergeRemarks(plan),
    leastWeb: leastMetal(plan),
  };
  return { value, problems };
}

const leftOut = (name: string, edge: number): Problem => ({
  code: 'merge/no-room-for-mark',
  severity: name === SIDE ? 'warning' : 'note',
  what: `no room to etch ${name}, even 3 mm high, clear of holes and edges`,
  why:
    name === SIDE
      ? 'turned over, the slots are numbered the wrong way round'
      : 'the mark would run into an edge and be lost',
  fix: `set merge_plate.edge: ${Math.ceil(edge) + 2}, or mark it by hand on the side that lay up on the table`,
  place: { path: 'merge_plate.edge' },
});
