import { degrees, radians, tidy } from '../../base/numbers.js';
import type { Problem } from '../../base/problems.js';
import { tolerance } from '../../base/tolerance.js';
import { distanceTo } from '../../geom/loops.js';
import type { Job } from '../../job/job.js';
import type { MergePlan } from './plan.js';

/** Tubes that a flat plate can take in one ring. */
const COUNT = [2, 8] as const;
/** Beyond this lean a hole cut square no longer fits the tube it is cut for. Common practice, no source. */
const STEEPEST = radians(30);

/** What keeps a job from having a merge plate at all. */
export function checkAsked({ ports, collector, mergePlate: plate, tube }: Job): readonly Problem[] {
  const lacks = [
    ...(ports.length === 0 ? ['ports'] : []),
    ...(tube === undefined ? ['tube'] : []),
    ...(collector === undefined ? ['collector'] : []),
    ...(plate === undefined ? ['merge_plate'] : []),
  ];
  if (lacks.length > 0 || plate === undefined || collector === undefined)
    return lacks.map((section) => ({
      code: 'merge/missing-section',
      severity: 'error',
      what: `the job has no ${section} section`,
      why: 'the holes are placed by the collector, sized by the tube and counted by the ports',
      fix: `add ${section === 'merge_plate' ? 'merge_plate: { thickness: 6 }' : `the ${section} section`}`,
      place: { path: section },
    }));
  const problems: Problem[] = [];
  const [least, most] = COUNT;
  if (ports.length < least || ports.length > most)
    problems.push({
      code: 'merge/count',
      severity: 'error',
      what: `${ports.length} ${ports.length === 1 ? 'tube' : 'tubes'} to merge (${least} to ${most} stand in one ring)`,
      why:
        ports.length < least ? 'there is nothing to merge' : 'the ring leaves a hollow wider than the tubes',
      fix:
        ports.length < least
          ? 'leave the merge_plate section out'
          : `merge them in two stages: one job for each group of ${most} or fewer`,
      place: { path: 'ports' },
    });
  if (collector.joint === 'welded' && collector.halfAngle > STEEPEST + tolerance.sameDirection)
    problems.push({
      code: 'merge/lean',
      severity: 'error',
      what: `the tubes lean ${tidy(degrees(collector.halfAngle), 1)} deg (at most ${tidy(degrees(STEEPEST), 0)})`,
      why: 'holes cut square through a flat plate get too long for the tubes',
      fix: `set collector.half_angle: ${tidy(degrees(STEEPEST), 0)}`,
      place: { path: 'collector.half_angle' },
    });
  if (plate.starHole !== undefined && plate.centreTube !== undefined)
    problems.push({
      code: 'merge/star-and-centre',
      severity: 'error',
      what: `a star hole of ${tidy(plate.starHole, 1)} mm and a centre tube of ${tidy(plate.centreTube, 1)} mm on the same axis`,
      why: 'the one would be cut out of the other',
      fix: 'leave out merge_plate.star_hole or merge_plate.centre_tube',
      place: { path: 'merge_plate.star_hole' },
    });
  return problems;
}

/** Whether tubes, sleeves and tools go with the plate where it stands. */
export const checkFit = (plan: MergePlan): readonly Problem[] => [
  ...checkStation(plan),
  ...checkTolerance(plan),
  ...checkTools(plan),
];

function checkStation({ plate, collector, tube, rules }: MergePlan): readonly Problem[] {
  const where = { path: 'merge_plate.upstream' };
  // A leaning tube cut square ends unevenly: the side away from the axis stops short by this.
  const uneven = (tube.od / 2) * Math.sin(rules.lean);
  if (plate.upstream - uneven <= tolerance.samePoint)
    return [
      {
        code: 'merge/tube-short',
        severity: 'warning',
        what: `the plate's upstream face stands ${tidy(plate.upstream, 2)} mm upstream of the tubes' ends${uneven > 0.05 ? `, which are uneven by ${tidy(uneven, 1)} mm either way` : ''}`,
        why: 'the tubes do not come into their holes all round, and the weld must bridge the gap',
        fix: `set merge_plate.upstream: ${tidy(Math.ceil((plate.thickness + uneven) * 10) / 10, 1)}, and the tubes come right through`,
        place: where,
      },
    ];
  const { depth, gap, sleeveWall } = collector.slip;
  if (collector.joint !== 'slip' || plate.upstream >= depth - tolerance.samePoint) return [];
  const sleeve = tube.od + gap + 2 * sleeveWall;
  return [
    {
      code: 'merge/in-sleeves',
      severity: 'warning',
      what: `the plate's upstream face stands ${tidy(plate.upstream, 1)} mm upstream of the tubes' ends, inside the sleeves, which reach back ${tidy(depth, 1)} mm and are ${tidy(sleeve, 1)} mm across`,
      why: 'its holes fit the tubes, so the sleeves would have to be cut in two',
      fix: `set merge_plate.upstream: ${tidy(depth, 1)}, at the mouth of the sleeves, or let the holes take the sleeves (gap: ${tidy(sleeve - tube.od + 0.4, 1)})`,
      place: where,
    },
  ];
}

/**
 * Outside diameter class D3 of ISO 1127 and ISO 5252, as a steel tube handbook prints it: 0.75 % of the
 * nominal, not less than 0.3 mm.
 */
const overSize = (od: number): number => Math.max(0.0075 * od, 0.3);

function checkTolerance({ plate, tube }: MergePlan): readonly Problem[] {
  const over = overSize(tube.od);
  if (plate.gap >= over) return [];
  return [
    {
      code: 'merge/tight-hole',
      severity: 'note',
      what: `the holes are ${tidy(plate.gap, 2)} mm over the tube, which may itself be ${tidy(over, 2)} mm over its nominal ${tidy(tube.od, 1)} (class D3)`,
      why: 'such a tube would not enter until its hole is filed out',
      fix: `measure the tube and put that in tube.od, or set merge_plate.gap: ${tidy(Math.ceil(over * 10) / 10, 1)}`,
      place: { path: 'merge_plate.gap' },
    },
  ];
}

function checkTools({ plate, tubes, bolts }: MergePlan): readonly Problem[] {
  if (bolts === undefined || bolts.tool === 0) return [];
  let [least, tight] = [Infinity, ''];
  for (const hole of bolts.holes)
    for (const { opening, slot } of tubes) {
      const room = distanceTo(opening.loop, hole.at).distance;
      if (room < least) [least, tight] = [room, `${hole.name} stands ${tidy(room, 1)} mm from tube ${slot}`];
    }
  if (least >= bolts.tool - tolerance.samePoint) return [];
  return [
    {
      code: 'merge/no-room-for-tool',
      severity: 'warning',
      what: `${tight}; a socket for ${plate.boltRing?.thread ?? 'it'} needs ${tidy(bolts.tool, 1)} mm`,
      why: 'the bolt cannot be turned once the tube is in',
      fix: `set merge_plate.bolt_ring.circle: ${tidy(Math.ceil(2 * bolts.least), 0)}`,
      place: { path: 'merge_plate.bolt_ring.circle' },
    },
  ];
}
