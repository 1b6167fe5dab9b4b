import { add, scale, type Vector } from '../../base/vectors.js';
import { leastDistanceTo, packSolids } from '../../geom/solids.js';
import type { Obstacle } from './obstacles.js';

/** A head that the port's axis does not clear within this (mm) is not described rightly. */
export const FURTHEST_WAIVER = 80;

/** Fineness of the look along the axis (mm). */
const STEP = 0.01;

/** How far a port's own head is waived, and how far its axis then stays clear of it: stations, mm. */
export interface Waiver {
  readonly until: number;
  readonly clearTo: number;
}

/**
 * The station up to which a port's own head is waived: where the port's axis first clears it, and at least
 * the stub; and how far on the axis keeps clear of it (Infinity past a convex head that it leaves).
 * Undefined where the axis does not clear it within 80 mm.
 * @param furthest no first straight is longer, mm
 */
export function waiverOf(
  start: { readonly id: string; readonly at: Vector; readonly direction: Vector },
  obstacles: readonly Obstacle[],
  stub: number,
  radius: number,
  furthest: number,
): Waiver | undefined {
  const heads = packSolids(obstacles.filter((o) => o.headOf.includes(start.id)));
  if (heads.count === 0) return { until: stub, clearTo: Infinity };
  const spareAt = (s: number): number =>
    leastDistanceTo(heads, ...add(start.at, scale(start.direction, s))) - radius;
  // Nothing nearer than the way that is missing can be clear, nor nearer than the spare run into something.
  let until = stub;
  while (until <= FURTHEST_WAIVER && spareAt(until) < 0) until += Math.max(STEP, -spareAt(until));
  if (until > FURTHEST_WAIVER) return undefined;
  for (let s = until; s <= furthest; s += Math.max(STEP, spareAt(s)))
    if (spareAt(s) < 0) return { until, clearTo: s };
  return { until, clearTo: Infinity };
}
