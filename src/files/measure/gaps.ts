import { cross, distance, dot, minus, plus, size, times, type Point } from '../../base/points.js';
import { turnOf } from '../../base/numbers.js';
import { nearestOn } from '../../geom/nearest.js';
import type { Arc, Line, Segment } from '../../geom/segments.js';

/*
 * Distances between the edges of a drawing that has been read back, in closed form. Unlike the crossings
 * that join outlines together, a crossing here is a clean one: edges that meet end to end, or that the
 * rounding of the file lets touch, give none, and the distance tells how near they come.
 */

/** How far a place is from an edge, mm. */
export const gapTo = (edge: Segment, at: Point): number => distance(at, nearestOn(edge, at));

/** Least distance of two edges, mm; 0 where they cross or touch. */
export function gapBetween(a: Segment, b: Segment): number {
  if (crossingsOf(a, b).length > 0) return 0;
  return Math.min(
    gapTo(b, a.from),
    gapTo(b, a.to),
    gapTo(a, b.from),
    gapTo(a, b.to),
    ...squareFeet(a, b).map((foot) => gapTo(b, foot)),
    ...squareFeet(b, a).map((foot) => gapTo(a, foot)),
  );
}

/** The points inside edge `a` from which the shortest way to `b`'s whole line or circle is square to both. */
function squareFeet(a: Segment, b: Segment): readonly Point[] {
  if (b.kind === 'line') {
    if (a.kind === 'line') return [];
    const along = minus(b.to, b.from);
    const square: Point = times([-along[1], along[0]], a.radius / size(along));
    return [plus(a.centre, square), minus(a.centre, square)].filter((foot) => passes(a, foot));
  }
  if (a.kind === 'line') return [nearestOn(a, b.centre)];
  const between = minus(b.centre, a.centre);
  const apart = size(between);
  if (apart === 0) return [];
  const reach = times(between, a.radius / apart);
  return [plus(a.centre, reach), minus(a.centre, reach)].filter((foot) => passes(a, foot));
}

/** The points at which two edges cross. Edges that only lie along each other or just touch give none. */
export function crossingsOf(a: Segment, b: Segment): readonly Point[] {
  if (a.kind === 'line') return b.kind === 'line' ? lineAndLine(a, b) : lineAndArc(a, b);
  return b.kind === 'line' ? lineAndArc(b, a) : arcAndArc(a, b);
}

function lineAndLine(a: Line, b: Line): readonly Point[] {
  const along = minus(a.to, a.from);
  const other = minus(b.to, b.from);
  const slant = cross(along, other);
  if (slant === 0) return [];
  const between = minus(b.from, a.from);
  const shareA = cross(between, other) / slant;
  const shareB = cross(between, along) / slant;
  const within = (share: number): boolean => share >= 0 && share <= 1;
  return within(shareA) && within(shareB) ? [plus(a.from, times(along, shareA))] : [];
}

function lineAndArc(line: Line, arc: Arc): readonly Point[] {
  const along = minus(line.to, line.from);
  const from = minus(line.from, arc.centre);
  const a = dot(along, along);
  const b = dot(from, along);
  const under = b * b - a * (dot(from, from) - arc.radius ** 2);
  if (under <= 0) return [];
  const root = Math.sqrt(under);
  return [(-b - root) / a, (-b + root) / a]
    .filter((share) => share >= 0 && share <= 1)
    .map((share) => plus(line.from, times(along, share)))
    .filter((at) => passes(arc, at));
}

function arcAndArc(a: Arc, b: Arc): readonly Point[] {
  const between = minus(b.centre, a.centre);
  const apart = size(between);
  if (apart === 0) return [];
  const along = (apart ** 2 + a.radius ** 2 - b.radius ** 2) / (2 * apart);
  const under = a.radius ** 2 - along ** 2;
  if (under <= 0) return [];
  const foot = plus(a.centre, times(between, along / apart));
  const aside = times([-between[1], between[0]] as const, Math.sqrt(under) / apart);
  return [plus(foot, aside), minus(foot, aside)].filter((at) => passes(a, at) && passes(b, at));
}

/** Whether the arc covers the direction of a place, seen from its centre. */
function passes(arc: Arc, at: Point): boolean {
  const bearing = (p: Point): number => Math.atan2(p[1] - arc.centre[1], p[0] - arc.centre[0]);
  const turn = bearing(at) - bearing(arc.from);
  return turnOf(arc.sweep > 0 ? turn : -turn) <= Math.abs(arc.sweep);
}
