import { radians, tidy } from '../../base/numbers.js';
import { distance } from '../../base/points.js';
import type { Problem } from '../../base/problems.js';
import { chordsOf } from '../../geom/chords.js';
import { distanceTo, isInside } from '../../geom/loops.js';
import type { FlangeJoint, FlangeSpec, Job, Tube } from '../../job/job.js';
import { threadOf } from '../../job/tables/threads.js';
import { studName } from './holes.js';
import { leanOf, leanWords, type PortOpening } from './opening.js';
import type { PlatePlan } from './plan.js';

const STEEPEST = radians(45);
/** Metal under a socket. */
const LEAST_FLOOR = 2;

/** Leans and sockets that cannot be made, found before anything is drawn. */
export function checkOpenings(
  plan: PlatePlan,
  flange: FlangeSpec,
  tube: Tube | undefined,
  joint: FlangeJoint,
): Problem[] {
  const problems: Problem[] = [];
  for (const { port, direction } of plan.ports) {
    if (tube === undefined || (direction[2] > 0 && leanOf(direction) <= STEEPEST)) continue;
    problems.push({
      code: 'flange/lean-too-steep',
      severity: 'error',
      what: `the tube of ${port.id} is ${leanWords(direction)} to its plate, most 45 deg`,
      why: 'the hole grows past its edges and the weld under the tube cannot be reached',
      fix: `measure ${port.id} again: \`leaving\` counts from square to the face; 45 deg at most`,
      place: { path: 'ports.leaving' },
    });
  }
  const floor = joint.kind === 'socket' ? flange.thickness - joint.depth : Infinity;
  if (joint.kind === 'socket' && floor < LEAST_FLOOR)
    problems.push({
      code: 'flange/socket-too-deep',
      severity: 'error',
      what: `a socket ${tidy(joint.depth)} mm deep leaves ${tidy(floor)} mm of ${tidy(flange.thickness)} mm plate, least ${LEAST_FLOOR} mm`,
      why: 'the end of the tube needs a floor to stand on, or it slips through and the lengths are lost',
      fix: `make the socket ${tidy(flange.thickness - LEAST_FLOOR)} mm deep, or the plate ${tidy(joint.depth + LEAST_FLOOR)} mm thick`,
      place: { path: 'primaries.joint_at_flange' },
    });
  return problems;
}

/** The tube's end on metal, the plate out of the flow, room for every nut and its tool. */
export function checkTools(job: Job, plan: PlatePlan, openings: readonly PortOpening[]): Problem[] {
  return [
    ...openings.flatMap((opening) => landing(opening, job.tube)),
    ...stepsInFlow(openings),
    ...plan.studs.flatMap((stud) => openings.flatMap((opening) => toolRoom(job, stud, opening))),
  ];
}

function landing(
  { of, withinBore, kind, opening, tubeEnd, pocket }: PortOpening,
  tube: Tube | undefined,
): Problem[] {
  const stand = pocket?.loop ?? tubeEnd;
  if (tube === undefined || stand === undefined || withinBore || kind !== 'port') return [];
  const least = tube.wall / 2;
  const found = Math.min(
    ...chordsOf(opening.loop, 0.02).map((p) => distanceTo(stand, p).distance * (isInside(stand, p) ? 1 : -1)),
  );
  if (found >= least) return [];
  return [
    {
      code: 'flange/tube-off-metal',
      severity: 'error',
      what: `the opening of ${of.port.id} reaches ${found < 0 ? `${tidy(-found, 2)} mm outside the tube` : `to ${tidy(found, 2)} mm from the tube's outside`}; least ${tidy(least, 2)} mm of its ${tidy(tube.wall, 2)} mm wall must stand on metal`,
      why: 'the weld falls through the gap and the joint leaks',
      fix: 'set flange.opening: blend (or leave it out), or join the tube through the plate',
      place: { path: 'flange.opening' },
    },
  ];
}

/** Ports that the plate covers in part. Equal ports meet the same step, which is told once for all of them. */
function stepsInFlow(openings: readonly PortOpening[]): Problem[] {
  const trifle = 0.1;
  const alike = new Map<string, PortOpening[]>();
  for (const each of openings.filter(({ covered }) => covered.step > trifle)) {
    const key = `${each.kind} ${tidy(each.covered.step, 1)} ${tidy(each.covered.area, 0)}`;
    alike.set(key, [...(alike.get(key) ?? []), each]);
  }
  return [...alike.values()].flatMap((group) => {
    const first = group[0];
    if (first === undefined) return [];
    const { kind, covered } = first;
    const whose = group.map(({ of }) => of.port.id).join(', ');
    return {
      code: 'flange/step-in-flow',
      severity: kind === 'blend' ? 'note' : 'warning',
      what: `the plate covers ${tidy(covered.area, 0)} mm2 of ${whose}, a step of up to ${tidy(covered.step, 1)} mm`,
      why: 'gas leaving the head meets an edge, and flow is lost',
      fix: 'grind the opening out to the port on the gasket side, or take a larger tube',
      place: { path: 'flange.opening' },
    };
  });
}

function toolRoom(job: Job, stud: PlatePlan['studs'][number], { of, tubeEnd }: PortOpening): Problem[] {
  const thread = job.studs?.thread === undefined ? undefined : threadOf(job.studs.thread);
  if (tubeEnd === undefined || thread === undefined) return [];
  const inside = isInside(tubeEnd, stud.at);
  const room = distanceTo(tubeEnd, stud.at).distance * (inside ? -1 : 1);
  const nut = thread.acrossCorners / 2;
  const tool = thread.socket / 2;
  if (room >= tool || (room >= nut && job.wrench.tool === 'spanner')) return [];
  const [needs, severity] = room < nut ? (['the nut', 'error'] as const) : (['a socket', 'warning'] as const);
  const want = room < nut ? nut : tool;
  // Straight away from the port's centre is the shortest way out.
  const away = distance(stud.at, of.at);
  return [
    {
      code: 'flange/no-room-for-tool',
      severity,
      what: `${studName(stud)} stands ${tidy(room, 1)} mm from the tube of ${of.port.id}; ${needs} of ${thread.name} needs ${tidy(want, 1)} mm`,
      why:
        severity === 'error'
          ? 'the header can be welded but never bolted on'
          : 'only a spanner will turn it, and slowly',
      fix: `move the stud to ${tidy(away + want - room, 1)} mm from the centre of ${of.port.id} (now ${tidy(away, 1)} mm), or plan on a ring spanner and say wrench.tool: spanner`,
      place: { path: stud.stud.path },
    },
  ];
}
