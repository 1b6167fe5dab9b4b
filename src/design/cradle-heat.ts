import { cosSin, tidy } from '../base/numbers.js';
import type { Problem } from '../base/problems.js';
import { tolerance } from '../base/tolerance.js';
import type { CentreLine } from '../geom/centre-line.js';
import type { CradlePlace, Job } from '../job/job.js';
import type { CradlePart } from './parts.js';

/** Kept between printed plastic and a tack, along the tube, mm. Common practice; plastics soften from 59 C up. */
export const HEAT_DISTANCE = 40;

/** How much of the tube a cradle covers each way from its station, mm. */
export const halfHeld = ({ width, tilt }: Pick<CradlePart, 'width' | 'tilt'>): number =>
  width / 2 / cosSin(tilt)[0];

/**
 * Warns where a cradle stands nearer to the weld at the flange, or to the joint at the collector, than
 * plastic should; and where it stands on the stretch that a slip joint's sleeve takes. Where the pieces of a
 * primary are joined in between is not known here: the part's remarks say what to keep.
 */
export function heatProblems(part: CradlePart, place: CradlePlace, line: CentreLine, job: Job): Problem[] {
  const problems: Problem[] = [];
  const half = halfHeld(part);
  const where = { path: `${place.path}.station` };
  const fromFlange = part.station - half;
  const fromSlot = line.length - part.station - half;
  const warn = (room: number, of: string, station: number): Problem => ({
    code: 'cradle/near-heat',
    severity: 'warning',
    what: `${part.name} begins ${tidy(Math.max(0, room), 1)} mm from ${of} (at least ${HEAT_DISTANCE} mm)`,
    why: 'the plastic softens while that joint is tacked, and the tube sinks into it',
    fix: `put it at station: ${tidy(station, 1)}`,
    place: where,
  });
  if (fromFlange < HEAT_DISTANCE - tolerance.samePoint)
    problems.push(warn(fromFlange, 'the weld at the flange', Math.ceil(2 * (HEAT_DISTANCE + half)) / 2));
  const depth = job.collector?.joint === 'slip' ? job.collector.slip.depth : 0;
  if (fromSlot < depth - tolerance.samePoint)
    problems.push({
      code: 'cradle/in-sleeve',
      severity: 'warning',
      what: `${part.name} ends ${tidy(Math.max(0, fromSlot), 1)} mm from the tube's end, where the sleeve reaches back ${tidy(depth, 1)} mm`,
      why: 'the collector cannot be put on with the cradle in place',
      fix: `put it at station: ${tidy(Math.floor(2 * (line.length - Math.max(depth, HEAT_DISTANCE) - half)) / 2, 1)}`,
      place: where,
    });
  else if (fromSlot < HEAT_DISTANCE - tolerance.samePoint)
    problems.push(
      warn(fromSlot, 'the joint at the collector', Math.floor(2 * (line.length - HEAT_DISTANCE - half)) / 2),
    );
  return problems;
}
