import { tidy } from '../../base/numbers.js';
import type { Outcome, Problem } from '../../base/problems.js';
import { circleLoop } from '../../geom/loops.js';
import type { Loop } from '../../geom/segments.js';
import type { FlangeJoint, FlangeSpec, Job } from '../../job/job.js';
import type { PlatePart } from '../parts.js';
import { checkOpenings, checkTools } from './check-fit.js';
import { checkMetal, leastMetal } from './check-metal.js';
import { checkPlates } from './check-plates.js';
import type { DesignedFlange } from './designed.js';
import { studHoles } from './holes.js';
import { flangeMarks } from './marks.js';
import { openPorts } from './opening.js';
import { cutAway, flangeOutline, NICK, nickPlace, reliefSlots } from './outline.js';
import { planPlates, type PlatePlan } from './plan.js';
import { flangeRemarks } from './remarks.js';

/**
 * The port flange, or flanges, of a job: outline, openings, holes and marks, all checked.
 * No value comes back where an error would make the plate scrap; warnings leave it.
 */
export function designFlanges(job: Job): Outcome<readonly DesignedFlange[]> {
  const before = designed.get(job);
  if (before !== undefined) return before;
  const made = design(job);
  designed.set(job, made);
  return made;
}

/** Flange and strongback ask for the same design; a job is frozen, so it is worked out once. */
const designed = new WeakMap<Job, Outcome<readonly DesignedFlange[]>>();

function design(job: Job): Outcome<readonly DesignedFlange[]> {
  const { flange } = job;
  const bare = job.ports.filter((port) => port.shape === undefined);
  if (flange === undefined || job.ports.length === 0 || bare.length > 0) {
    const lacking = flange === undefined ? 'flange' : job.ports.length === 0 ? 'ports' : 'ports.shape';
    return { value: undefined, problems: [missing(lacking)] };
  }
  const problems: Problem[] = [];
  const joint = job.primaries?.jointAtFlange ?? { kind: 'butt' };
  const made = planPlates(job).map((plan) => designPlate(job, flange, joint, plan));
  problems.push(...made.flatMap((each) => each.problems));
  const value = made.flatMap((each) => (each.value === undefined ? [] : [each.value]));
  problems.push(...checkPlates(value));
  const stopped = problems.some((problem) => problem.severity === 'error');
  return { value: stopped ? undefined : value, problems };
}

function designPlate(
  job: Job,
  flange: FlangeSpec,
  joint: FlangeJoint,
  plan: PlatePlan,
): Outcome<DesignedFlange> {
  const steep = checkOpenings(plan, flange, job.tube, joint);
  if (steep.some((problem) => problem.severity === 'error')) return { value: undefined, problems: steep };
  const openings = openPorts(plan.ports, flange, job.tube, joint);
  const holes = studHoles(plan, flange);
  const problems: Problem[] = [...steep, ...checkTools(job, plan, openings)];

  const plain = flangeOutline(plan, openings, flange);
  const relief = reliefSlots(plan, plain.outline, flange);
  const edges: Loop[] = [...openings.map((o) => o.opening.loop), ...holes.edges.map((hole) => hole.loop)];
  const nick = flange.nick ? nickPlace(plan, plain.outline, edges, flange.leastWeb) : undefined;
  const away = [...relief.map((slot) => slot.loop), ...(nick ? [circleLoop(nick, NICK)] : [])];
  const pieces = cutAway(plain.outline, away);
  const outline = pieces[0] ?? plain.outline;
  problems.push(
    ...checkMetal({
      plan,
      flange,
      openings,
      holes,
      outline,
      pieces: plain.pieces,
      afterCuts: pieces.length,
      nicked: !flange.nick || nick !== undefined,
    }),
  );
  if (problems.some((problem) => problem.severity === 'error')) return { value: undefined, problems };

  const { marks, noRoom } = flange.etch
    ? flangeMarks(plan, job.name, openings, outline, edges)
    : { marks: [], noRoom: [] };
  if (noRoom.length > 0) problems.push(noRoomForMark(noRoom));
  const part: PlatePart = {
    kind: 'plate',
    name: plan.name,
    family: 'flange',
    title: plan.title,
    material: flange.material,
    thickness: flange.thickness,
    outline,
    openings: [...openings.map((each) => each.opening), ...holes.slots],
    holes: holes.round,
    pockets: openings.flatMap((each) => (each.pocket === undefined ? [] : [each.pocket])),
    marks,
    view: 'seen from the tube side, the side away from the head',
    remarks: flangeRemarks(job, flange, joint, openings, holes, nick !== undefined),
    leastWeb: leastMetal(flange, openings, holes, outline),
  };
  return { value: { part, plan, openings, holes }, problems };
}

function missing(path: string): Problem {
  return {
    code: 'flange/missing-section',
    severity: 'error',
    what: `the job has no ${path}`,
    why: 'a flange is drawn from the ports, their shape and the plate it is cut from',
    fix: path === 'flange' ? 'add `flange: { thickness: 10 }`' : `add ${path} as in the demo job`,
    place: { path },
  };
}

function noRoomForMark(names: readonly string[]): Problem {
  // The name is a convenience; the others say which way round the plate goes.
  const grave = names.some((name) => name !== 'job name');
  return {
    code: 'flange/no-room-for-mark',
    severity: grave ? 'warning' : 'note',
    what: `no free metal for ${names.join(', ')}`,
    why: grave
      ? 'a plate that is taken for its mirror image is scrap once the tubes are on'
      : 'plates of several jobs on one sheet are easily mixed up',
    fix: `mark the plate by hand as it comes off the table, or raise flange.edge by ${tidy(6)} mm`,
    place: { path: 'flange.edge' },
  };
}
