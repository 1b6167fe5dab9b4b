import { cross, dot, far, march, plus, size, toBody, type Marched } from './plain-march.js';
import {
  waivedUntil,
  type PlainBody,
  type PlainJob,
  type PlainSlot,
  type PlainStart,
} from './plain-route-job.js';
import { rowsThroughCorners } from './route-by-trial.js';

/** How a sweep goes. All mm. */
export interface Sweep {
  /** Of the grid over both arms. */
  readonly pitch: number;
  /** By how much every limit and clearance may fall short (degrees, for angles). */
  readonly slack: number;
  /** Longest leg on the rack: at most one straight of a tube of three welds is longer. */
  readonly leg: number;
  readonly radii: readonly number[];
}

/** Points of a swept tube lie so far apart at most. */
const STEP = 8;
const deg = 180 / Math.PI;

/**
 * Every two-bend tube of three welds from a port to a slot, on a grid: the first corner a ahead of the port,
 * the second b before the slot, every pair of radii; that keeps limits and bodies to within the slack. Stock
 * of half a turn keeps one leg of each bend, so two of the three straights must be no longer than a leg.
 */
export function sweepTwoBends(
  { od, limits }: PlainJob,
  start: PlainStart,
  slot: PlainSlot,
  bodies: readonly (PlainBody & { readonly waived: number })[],
  { pitch, slack, leg, radii }: Sweep,
): Marched[] {
  const found: Marched[] = [];
  const [shortest, longest] = [limits.window[0] - slack, limits.window[1] + slack];
  const most = longest + 2 * Math.max(...radii);
  for (let a = limits.stub; a < most; a += pitch)
    for (let b = limits.last; b < most; b += pitch) {
      const [p, q] = [plus(start.at, start.flow, a), plus(slot.at, slot.flow, -b)];
      const way = plus(q, p, -1);
      const between = size(way);
      const turns = [start.flow, slot.flow].map((flow) => Math.atan2(size(cross(flow, way)), dot(flow, way)));
      const [one, two] = turns as [number, number];
      const keeps = (turn: number): boolean =>
        turn * deg > limits.leastAngle - slack && turn * deg < limits.largestAngle + slack;
      if (!keeps(one) || !keeps(two)) continue;
      for (const r1 of radii)
        for (const r2 of radii) {
          const [t1, t2] = [r1 * Math.tan(one / 2), r2 * Math.tan(two / 2)];
          const straights = [a - t1, between - t1 - t2, b - t2];
          const least = [limits.stub, limits.between, limits.last];
          if (straights.some((straight, i) => straight < (least[i] as number) - slack)) continue;
          if (straights.filter((straight) => straight > leg + slack).length > 1) continue;
          const length = a + b + between - 2 * (t1 + t2) + r1 * one + r2 * two;
          if (length < shortest || length > longest) continue;
          const rows = rowsThroughCorners(start, [start.at, p, q, slot.at], [r1, r2]);
          if (rows === undefined) continue;
          const line = march(start.at, start.flow, start.reference, rows, STEP);
          const clear = bodies.every(
            (one) =>
              one.sleeveOf === slot.id ||
              line.stations.every(
                (here) =>
                  here.s < one.waived ||
                  (one.ofCollector && here.row === 4) ||
                  toBody(one.body, here.p) - od / 2 - one.clear > -slack,
              ),
          );
          if (clear) found.push(line);
        }
    }
  return found;
}

/** The tubes of three welds of every port and slot, but for the bodies left out. */
export function sweepJob(
  job: PlainJob,
  sweep: Sweep,
  leaveOut: (name: string) => boolean = () => false,
): Marched[][][] {
  const { at, flow, clocking = 0 } = job.collector;
  const pose = { at, flow, clocking };
  const bodies = job.bodiesAt(pose).filter(({ name }) => !leaveOut(name));
  return job.starts.map((start) => {
    const near = bodies.map((one) => ({ ...one, waived: waivedUntil(job, start, one) }));
    return job.slotsAt(pose).map((slot) => sweepTwoBends(job, start, slot, near, sweep));
  });
}

/** Most spare (mm) that two tubes of nearly one length have between them; minus infinity where there are no two. */
export function roomiestPair(
  { od, clear }: PlainJob,
  ones: readonly Marched[],
  others: readonly Marched[],
  apart: number,
): number {
  let best = -Infinity;
  for (const a of ones)
    for (const b of others) {
      if (Math.abs(a.length - b.length) > apart) continue;
      let least = Infinity;
      for (const p of a.stations) {
        if (least < best) break;
        for (const q of b.stations) {
          const near = p.row >= 3 && q.row >= 3;
          if (near && p.row > 3 && q.row > 3) continue;
          least = Math.min(least, far(p.p, q.p) - od - (near ? clear.nearSlots : clear.tubes));
        }
      }
      best = Math.max(best, least);
    }
  return best;
}
