import { degrees, tidy } from '../../base/numbers.js';
import type { MergePlan } from './plan.js';
import { SIDE } from './marks.js';
import { pitchAt } from './tubes.js';

/** Said on every drawing of the plate. */
export const VIEW = `seen looking upstream, x along the collector's clocking zero: ${SIDE} up`;

/** What the person at the table and at the bench must know of this plate; cautions last. */
export function mergeRemarks(plan: MergePlan): readonly string[] {
  const { plate, rules, tubes, bolts, star, collector } = plan;
  const lines = [
    `${SIDE} up on the table: the dross is then on the upstream side. S1, S2, ... run counter-clockwise from the tick as seen here, right hand about the flow.`,
    'Drawn at finished size. Kerf and lead-ins are set at the table.',
    `Stands square on the collector's axis, its upstream face ${tidy(plate.upstream, 2)} mm upstream of the tubes' ends.`,
    ...ringLines(plan),
  ];
  if (collector.clocking === undefined)
    lines.push(
      'The job leaves the clocking free: S1 is drawn on the clocking zero. Turn the plate as the route needs.',
    );
  const deviation = Math.max(...tubes.map((tube) => tube.deviation));
  if (deviation > 0)
    lines.push(
      `Tube holes are cut as arcs: never inside the true shape, and at most ${tidy(Math.ceil(deviation * 1000) / 1000, 3)} mm outside it.`,
    );
  // A leaning tube is cut square to itself, so its end is uneven to the plate.
  const uneven = (plan.tube.od / 2) * Math.sin(rules.lean);
  if (plate.upstream - plate.thickness < uneven && uneven > 0)
    lines.push(
      `The tubes' ends are cut square to the tubes: uneven to the plate by ${tidy(uneven, 1)} mm either way. Trim or weld out flush.`,
    );
  const drilled = [...(bolts?.holes ?? []), ...(star === undefined ? [] : [star])].filter(
    ({ made }) => made === 'drilled',
  );
  for (const diameter of new Set(drilled.map((hole) => hole.diameter))) {
    const count = drilled.filter((hole) => hole.diameter === diameter).length;
    lines.push(
      `Drill ${count} ${count === 1 ? 'hole' : 'holes'} ${tidy(diameter, 2)} mm at the DRILL marks: too small to ${plate.cutBy === 'plasma' ? 'burn' : 'cut'} in ${tidy(plate.thickness, 2)} mm plate by ${plate.cutBy}.`,
    );
  }
  if (bolts !== undefined)
    lines.push(
      `${bolts.holes.length} bolts on a circle of ${tidy(2 * bolts.radius, 2)} mm, the first halfway from S1 to S2.`,
    );
  lines.push(
    'Stainless: welding and plasma fume hold hexavalent chromium. Extract it and wear a fitted respirator; back-purge gas displaces air in closed spaces. No chlorinated cleaner near an arc.',
  );
  return lines;
}

function ringLines({ plate, rules, tubes, tube, collector }: MergePlan): string[] {
  const pitch = (upstream: number): string => tidy(2 * pitchAt(rules, upstream), 2);
  const hole = tidy(tube.od + plate.gap, 2);
  if (rules.lean === 0)
    return [
      `${tubes.length} round holes of ${hole} mm on a pitch circle of ${pitch(0)} mm; the tubes go through square.`,
      ...(collector.joint === 'slip' && plate.upstream - collector.slip.depth < plate.thickness
        ? ['The sleeves are welded to this plate: tack all of them on their tubes before welding any out.']
        : []),
    ];
  return [
    `${tubes.length} holes ${hole} wide and ${tidy(tubes[0]?.length ?? 0, 2)} long toward the axis, for tubes leaning ${tidy(degrees(rules.lean), 2)} deg: on a pitch circle of ${pitch(plate.upstream)} mm at the upstream face, ${pitch(plate.upstream - plate.thickness)} at the other.`,
  ];
}
