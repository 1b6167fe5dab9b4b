import { add, scale, type Vector } from '../../base/vectors.js';
import { leastDistanceTo, packSolids } from '../../geom/solids.js';
import type { Obstacle } from './obstacles.js';

/** A head that the port's axis does not clear within this (mm) is not described rightly. */
export const FURTHEST_WAIVER = 80;

/** Fineness of the look along the axis (mm). */
const STEP = 0.01;

/** How far a port's own head is waived, and how far its axis then stays clear of it: stations, mm. */
export interface Waiver {
  /** Where the last of its heads ceases to be waived. */
  readonly until: number;
  /** Past that, how far on the axis stays clear of all of them. */
  readonly clearTo: number;
  /** Where each of its heads ceases to be waived, in the order of the obstacles that are heads of it. */
  readonly heads: readonly number[];
}

/**
 * The stations up to which a port's own heads are waived, each by itself: where the port's axis first clears
 * it, and at least the stub; and how far on the axis keeps clear of them (Infinity past a convex head that it
 * leaves). Undefined where the axis does not clear one within 80 mm.
 * @param furthest no first straight is longer, mm
 */
export function waiverOf(
  start: { readonly id: string; readonly at: Vector; readonly direction: Vector },
  obstacles: readonly Obstacle[],
  stub: number,
  radius: number,
  furthest: number,
): Waiver | undefined {
  const own = obstacles.filter((o) => o.headOf.includes(start.id));
  if (own.length === 0) return { until: stub, clearTo: Infinity, heads: [] };
  const spareTo = (list: readonly Obstacle[]): ((s: number) => number) => {
    const solids = packSolids(list);
    return (s) => leastDistanceTo(solids, ...add(start.at, scale(start.direction, s))) - radius;
  };
  const heads: number[] = [];
  for (const head of own) {
    const spareAt = spareTo([head]);
    // Nothing nearer than the way that is missing can be clear.
    let clears = 0;
    while (clears <= FURTHEST_WAIVER && spareAt(clears) < 0) clears += Math.max(STEP, -spareAt(clears));
    if (clears > FURTHEST_WAIVER) return undefined;
    heads.push(Math.max(clears, stub));
  }
  const until = Math.max(...heads);
  const spareAt = spareTo(own);
  // Nothing nearer than the spare can be run into.
  for (let s = until; s <= furthest; s += Math.max(STEP, spareAt(s)))
    if (spareAt(s) < 0) return { until, clearTo: s, heads };
  return { until, clearTo: Infinity, heads };
}
