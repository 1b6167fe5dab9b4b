import { directionSeenFrom, flatSeenFrom, type Frame } from '../../base/frames.js';
import { distance, type Point } from '../../base/points.js';
import { tolerance } from '../../base/tolerance.js';
import { dot3, type Vector } from '../../base/vectors.js';
import type { FlangeSpec, Job, Port, Stud } from '../../job/job.js';

/** A port as it stands on one plate: flat place, its gas direction and how far its face is turned there. */
export interface PlatePort {
  readonly port: Port;
  readonly at: Point;
  /** Unit direction of the gas in the plate's frame. */
  readonly direction: Vector;
  readonly turn: number;
}

export interface PlateStud {
  readonly stud: Stud;
  /** Its number among the job's studs, from 1. */
  readonly number: number;
  readonly at: Point;
}

/** One plate to be cut: which ports and studs it holds, in the frame of its first port's face. */
export interface PlatePlan {
  readonly name: string;
  readonly title: string;
  readonly frame: Frame;
  readonly ports: readonly PlatePort[];
  readonly studs: readonly PlateStud[];
  readonly dowels: FlangeSpec['dowels'];
}

/**
 * Divides the job's ports into plates as `made_as` says, and gives each stud to its plate. That ports of one
 * plate stand on one face was checked when the job was read.
 */
export function planPlates(job: Job): readonly PlatePlan[] {
  const madeAs = job.flange?.madeAs ?? 'one piece';
  const groups = groupsOf(job.ports, madeAs === 'one piece' ? job.ports.length : madeAs === 'pairs' ? 2 : 1);
  const plans = groups.map((ports): PlatePlan => {
    const first = ports[0] as Port;
    const ids = ports.map((port) => port.id.replace(/^P/, '')).join('-');
    const whole = ports.length === job.ports.length;
    return {
      name: whole ? 'flange' : `flange-${ids}`,
      title: whole ? 'Port flange' : `Port flange for ${ports.map((port) => port.id).join(' and ')}`,
      frame: first.face,
      ports: ports.map((port) => placedPort(port, first.face)),
      studs: [],
      // Dowels are given from port 1, so they go with the plate that holds it.
      dowels: ports[0] === job.ports[0] ? (job.flange?.dowels ?? []) : [],
    };
  });
  return withStuds(plans, job);
}

function groupsOf(ports: readonly Port[], size: number): Port[][] {
  const groups: Port[][] = [];
  for (let i = 0; i < ports.length; i += size) groups.push(ports.slice(i, i + size));
  return groups;
}

function placedPort(port: Port, frame: Frame): PlatePort {
  const right = directionSeenFrom(frame, port.face.right);
  return {
    port,
    at: flatSeenFrom(frame, port.at),
    direction: directionSeenFrom(frame, port.direction),
    turn: Math.atan2(right[1], right[0]),
  };
}

/** A stud given beside a port goes with that port; one given by place goes with the nearest port's plate. */
function withStuds(plans: readonly PlatePlan[], job: Job): PlatePlan[] {
  const all = job.studs?.all ?? [];
  const studs = plans.map((): PlateStud[] => []);
  all.forEach((stud, i) => {
    const nearness = plans.map((plan) => {
      if (plan.ports.some(({ port }) => port.id === stud.port)) return -1;
      if (stud.port !== undefined || dot3(stud.face.out, plan.frame.out) < 1 - tolerance.samePoint)
        return Infinity;
      const at = flatSeenFrom(plan.frame, stud.at);
      return Math.min(...plan.ports.map((port) => distance(port.at, at)));
    });
    const least = Math.min(...nearness);
    // A stud midway between two plates holds both.
    nearness.forEach((far, k) => {
      const plan = plans[k] as PlatePlan;
      if (far < Infinity && far - least <= tolerance.shop)
        studs[k]?.push({ stud, number: i + 1, at: flatSeenFrom(plan.frame, stud.at) });
    });
  });
  return plans.map((plan, k) => ({ ...plan, studs: studs[k] ?? [] }));
}
