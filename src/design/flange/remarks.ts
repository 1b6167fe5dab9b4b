import { degrees, tidy } from '../../base/numbers.js';
import type { CutBy, FlangeJoint, FlangeSpec, Job } from '../../job/job.js';
import type { StudHoles } from './holes.js';
import { leanOf, type PortOpening } from './opening.js';

/** Which side lies up, and what the cut leaves on the other. */
const sideUp: Readonly<Record<CutBy, string>> = {
  plasma: 'TUBE SIDE up on the table: the dross is then on the gasket face. Dress that face flat.',
  laser: 'TUBE SIDE up on the table: the burr is then on the gasket face. Dress that face flat.',
  waterjet: 'TUBE SIDE up on the table: the jet flares toward the gasket face. Break the edges there.',
  'saw and drill': 'Scribe and drill from the TUBE SIDE; break the edges of the gasket face.',
};

/** What the person at the table and at the bench must know of this plate; cautions last. */
export function flangeRemarks(
  job: Job,
  flange: FlangeSpec,
  joint: FlangeJoint,
  openings: readonly PortOpening[],
  holes: StudHoles,
  nicked: boolean,
): readonly string[] {
  const drilled = holes.round.filter((hole) => hole.made === 'drilled');
  const filed = holes.slots.filter((slot) => slot.drill !== undefined);
  const lines = [sideUp[flange.cutBy], 'Drawn at finished size. Kerf and lead-ins are set at the table.'];
  for (const diameter of new Set(drilled.map((hole) => hole.diameter))) {
    const count = drilled.filter((hole) => hole.diameter === diameter).length;
    lines.push(
      `Drill ${count} holes ${tidy(diameter, 2)} mm at the DRILL marks: too small to ${
        flange.cutBy === 'plasma' ? 'burn' : 'cut'
      } in ${tidy(flange.thickness)} mm plate by ${flange.cutBy}.`,
    );
  }
  if (filed.length > 0)
    lines.push(
      `${filed.length} slotted holes: drill ${tidy(filed[0]?.drill?.diameter ?? 0, 2)} mm at both DRILL marks, file out to the etched line.`,
    );
  if (openings.some((each) => each.kind === 'blend'))
    lines.push(
      'Openings are cut where port and tube bore overlap: grind from the port (gasket face) to the bore (tube side).',
    );
  for (const line of jointLines(job, joint, openings)) lines.push(line);
  if (nicked)
    lines.push('The nick in the edge is up and to the left of the first port, seen from the tube side.');
  lines.push(
    'Extract the fume of cutting and welding and wear a fitted respirator: from stainless it holds hexavalent chromium. Purge gas displaces air in closed spaces. No chlorinated cleaner near an arc.',
  );
  return lines;
}

function jointLines(job: Job, joint: FlangeJoint, openings: readonly PortOpening[]): string[] {
  if (job.tube === undefined) return [];
  const leans = openings.map((each) => leanOf(each.of.direction));
  const lean = Math.max(...leans);
  if (joint.kind === 'butt' && lean > 1e-4) {
    const side = job.tube.od * Math.tan(lean);
    return [
      `Tubes butt on the plate leaning ${tidy(degrees(lean), 1)} deg: the first cut is oblique, ${tidy(side, 1)} mm from long side to short.`,
    ];
  }
  if (joint.kind === 'through')
    return [
      `Tubes go through the plate and stop ${tidy(joint.recess)} mm short of the gasket face; weld inside and out.`,
    ];
  if (joint.kind === 'socket')
    return [`Mill the sockets ${tidy(joint.depth)} mm deep from the tube side to the etched line.`];
  return [];
}
