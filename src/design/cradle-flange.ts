import { place, seenFrom, type Frame } from '../base/frames.js';
import type { Vector } from '../base/vectors.js';
import { boundsOf } from '../geom/loops.js';
import type { FlangeSpec, Job } from '../job/job.js';
import { portLoop } from '../job/port-loop.js';
import { planPlates, type PlatePlan } from './flange/plan.js';

/** How closely a plate is stood for by points, mm: no foot is so small that it fits between them. */
const GRID = 8;

/**
 * The flanges as points over the base plate, both faces of each: a plate is stood for by the box about its
 * ports and studs with the metal round them, which its own outline never leaves.
 */
export function flangePoints(job: Job, base: Frame): readonly Vector[] {
  const { flange } = job;
  if (flange === undefined) return [];
  return planPlates(job).flatMap((plan) => pointsOf(plan, flange, (job.tube?.od ?? 0) / 2, base));
}

function pointsOf(
  { frame, ports, studs }: PlatePlan,
  flange: FlangeSpec,
  tube: number,
  base: Frame,
): readonly Vector[] {
  const [xs, ys]: [number[], number[]] = [[], []];
  const add = (at: number, half: number, to: number[]): number => to.push(at - half, at + half);
  for (const { port, at } of ports) {
    const box = port.shape && boundsOf(portLoop(port.shape));
    const half = (far: number): number => Math.max(tube, far) + flange.edge;
    add(at[0], half(Math.max(box?.right ?? 0, -(box?.left ?? 0))), xs);
    add(at[1], half(Math.max(box?.top ?? 0, -(box?.bottom ?? 0), flange.webHeight / 2 - flange.edge)), ys);
  }
  for (const { at } of studs) {
    add(at[0], flange.boss, xs);
    add(at[1], flange.boss, ys);
  }
  const rows = spread(ys);
  return spread(xs).flatMap((x) =>
    rows.flatMap((y) => [0, flange.thickness].map((z) => seenFrom(base, place(frame, [x, y, z])))),
  );
}

/** From the least to the most of some numbers in even steps of at most the grid. */
function spread(values: readonly number[]): readonly number[] {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const count = Math.max(1, Math.ceil((high - low) / GRID));
  return Array.from({ length: count + 1 }, (_, i) => low + ((high - low) * i) / count);
}
