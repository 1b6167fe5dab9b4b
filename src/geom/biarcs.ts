import { cross, distance, dot, minus, plus, size, times, type Point } from '../base/points.js';
import { arcFromBulge } from './arcs.js';
import { nearestOn } from './nearest.js';
import type { Segment } from './segments.js';

/** A smooth curve without corners, by a parameter of its own. */
export interface SmoothCurve {
  pointAt(t: number): Point;
  /** Direction of travel, length 1. */
  tangentAt(t: number): Point;
}

/** Arcs that stand for a curve, and how far the curve strays from them to either side (mm, never negative). */
export interface Fit {
  readonly pieces: readonly Segment[];
  readonly toLeft: number;
  readonly toRight: number;
}

/** Looks along the curve per pair of arcs; the error has at most four waves there. */
const LOOKS = 32;
/** Halvings before a curve counts as not smooth. */
const DEEPEST = 24;

/**
 * Arcs that follow a smooth curve from t0 to t1 within a tolerance (mm), tangent to it at their ends and to
 * each other at their joints: pairs of arcs ("biarcs") with equal tangent lengths, halved where they stray.
 * @throws Error where the curve cannot be followed so closely (it has a corner)
 * @see K. M. Bolton, Biarc curves, Computer-Aided Design 7 (1975) 89-92
 */
export function fitArcs(curve: SmoothCurve, t0: number, t1: number, within: number, depth = 0): Fit {
  const pieces = biarc(curve.pointAt(t0), curve.tangentAt(t0), curve.pointAt(t1), curve.tangentAt(t1));
  const here = { pieces, ...strayOf(curve, t0, t1, pieces) };
  if (Math.max(here.toLeft, here.toRight) <= within) return here;
  if (depth >= DEEPEST) throw new Error(`no arcs follow the curve within ${String(within)} mm`);
  const half = (t0 + t1) / 2;
  const first = fitArcs(curve, t0, half, within, depth + 1);
  const second = fitArcs(curve, half, t1, within, depth + 1);
  return {
    pieces: [...first.pieces, ...second.pieces],
    toLeft: Math.max(first.toLeft, second.toLeft),
    toRight: Math.max(first.toRight, second.toRight),
  };
}

/** Two arcs from one point and direction to another, with tangents of equal length at the joint. */
function biarc(p: Point, u: Point, q: Point, v: Point): readonly Segment[] {
  const way = minus(q, p);
  const both = plus(u, v);
  const k = 2 * (1 - dot(u, v));
  // k d^2 + 2 (way . both) d - way^2 = 0, in the form that stays good as the directions become one (k -> 0).
  const b = dot(way, both);
  const d = dot(way, way) / (b + Math.sqrt(b * b + k * dot(way, way)));
  const joint = times(plus(plus(p, q), times(minus(u, v), d)), 0.5);
  const back = arcAlong(q, times(v, -1), joint);
  return [arcFromBulge(p, joint, arcAlong(p, u, joint)), arcFromBulge(joint, q, -back)];
}

/** Bulge of the arc from a point, leaving along a direction, to another: the chord turns off by half the sweep. */
function arcAlong(from: Point, along: Point, to: Point): number {
  const chord = minus(to, from);
  return Math.tan(Math.atan2(cross(along, chord), dot(along, chord)) / 2);
}

/** How far the curve strays to either side of the arcs: looks, and a parabola through the widest three. */
function strayOf(
  curve: SmoothCurve,
  t0: number,
  t1: number,
  pieces: readonly Segment[],
): { readonly toLeft: number; readonly toRight: number } {
  const strays: number[] = [];
  for (let i = 0; i <= LOOKS; i++) strays.push(strayAt(curve.pointAt(t0 + ((t1 - t0) * i) / LOOKS), pieces));
  let [toLeft, toRight] = [0, 0];
  strays.forEach((here, i) => {
    const bend = (strays[i - 1] ?? here) + (strays[i + 1] ?? here) - 2 * here;
    const slope = ((strays[i + 1] ?? here) - (strays[i - 1] ?? here)) / 2;
    const inner = i > 0 && i < LOOKS && Math.abs(slope) < Math.abs(bend);
    const peak = inner ? here - (slope * slope) / (2 * bend) : here;
    toLeft = Math.max(toLeft, here, peak);
    toRight = Math.max(toRight, -here, -peak);
  });
  return { toLeft, toRight };
}

/** Distance of a point from the nearest of the pieces, positive to the left of their travel. */
function strayAt(point: Point, pieces: readonly Segment[]): number {
  let least = Infinity;
  let stray = 0;
  for (const piece of pieces) {
    const d = distance(point, nearestOn(piece, point));
    if (d >= least) continue;
    least = d;
    const onLeft =
      piece.kind === 'line'
        ? cross(minus(piece.to, piece.from), minus(point, piece.from)) > 0
        : size(minus(point, piece.centre)) < piece.radius === piece.sweep > 0;
    stray = onLeft ? d : -d;
  }
  return stray;
}
