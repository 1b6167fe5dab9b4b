import { cosSin } from '../base/numbers.js';
import { cross, dot, left, minus, plus, size, times, turned, unit, type Point } from '../base/points.js';
import { tolerance } from '../base/tolerance.js';
import type { Arc, Curve, EllipseArc, Line, Segment } from './segments.js';

const FULL = 2 * Math.PI;

/** A straight cut from one point to another (mm). */
export const line = (from: Point, to: Point): Line => ({ kind: 'line', from, to });

/**
 * A round cut about a centre, from the direction `start` (rad, counter-clockwise from x) over the signed
 * `sweep` (rad, positive counter-clockwise, at most a full turn). Ends at quarter turns are exact.
 */
export function arc(centre: Point, radius: number, start: number, sweep: number): Arc {
  const [c0, s0] = cosSin(start);
  const [c1, s1] = cosSin(start + sweep);
  const from: Point = [centre[0] + radius * c0, centre[1] + radius * s0];
  const to: Point = [centre[0] + radius * c1, centre[1] + radius * s1];
  return { kind: 'arc', from, to, centre, radius, sweep };
}

/** A round cut whose two ends are known already: the direction of travel is the sign of `sweep` (rad). */
export const arcBetween = (from: Point, to: Point, centre: Point, radius: number, sweep: number): Arc => ({
  kind: 'arc',
  from,
  to,
  centre,
  radius,
  sweep,
});

/**
 * The cut that a DXF polyline means by two vertices and a bulge: bulge = tan(sweep / 4), 0 a straight line,
 * 1 a half circle, positive counter-clockwise. With chord c: radius = c (1 + b^2) / (4 |b|).
 * @see DXF reference, LWPOLYLINE group code 42
 */
export function arcFromBulge(from: Point, to: Point, bulge: number): Segment {
  if (bulge === 0) return line(from, to);
  const chord = minus(to, from);
  const outOfChord = (1 - bulge * bulge) / (4 * bulge);
  const middle = times(plus(from, to), 0.5);
  return {
    kind: 'arc',
    from,
    to,
    centre: plus(middle, times(left(chord), outOfChord)),
    radius: (size(chord) * (1 + bulge * bulge)) / (4 * Math.abs(bulge)),
    sweep: 4 * Math.atan(bulge),
  };
}

/** The bulge of a cut, as a DXF polyline writes it: tan(sweep / 4), 0 for a line. */
export const bulgeOf = (segment: Segment): number =>
  segment.kind === 'line' ? 0 : Math.tan(segment.sweep / 4);

/** The point of a curve at t in [0, 1] of its sweep or length; its own ends exactly at 0 and 1. */
export function pointAt(curve: Curve, t: number): Point {
  if (t === 0) return curve.from;
  if (t === 1) return curve.to;
  if (curve.kind === 'line') {
    const { from, to } = curve;
    return [from[0] + (to[0] - from[0]) * t, from[1] + (to[1] - from[1]) * t];
  }
  if (curve.kind === 'ellipse') return ellipsePoint(curve, curve.start + curve.sweep * t);
  const { centre, from } = curve;
  const c = Math.cos(curve.sweep * t);
  const s = Math.sin(curve.sweep * t);
  const x = from[0] - centre[0];
  const y = from[1] - centre[1];
  return [centre[0] + c * x - s * y, centre[1] + s * x + c * y];
}

function ellipsePoint(piece: EllipseArc, angle: number): Point {
  const [c, s] = cosSin(angle);
  return plus(piece.centre, turned([piece.major * c, piece.minor * s], piece.turn));
}

/** The direction of travel at t in [0, 1], length 1. */
export function tangentAt(curve: Curve, t: number): Point {
  if (curve.kind === 'line') return unit(minus(curve.to, curve.from));
  if (curve.kind === 'ellipse') {
    const [c, s] = cosSin(curve.start + curve.sweep * t);
    const along = unit(turned([-curve.major * s, curve.minor * c], curve.turn));
    return curve.sweep < 0 ? times(along, -1) : along;
  }
  const k = (curve.sweep < 0 ? -1 : 1) / curve.radius;
  const out = minus(t === 1 ? curve.to : pointAt(curve, t), curve.centre);
  return [-out[1] * k, out[0] * k];
}

/** The length of a cut (mm). */
export const lengthOf = (segment: Segment): number =>
  segment.kind === 'line'
    ? Math.hypot(segment.to[0] - segment.from[0], segment.to[1] - segment.from[1])
    : segment.radius * Math.abs(segment.sweep);

/** Bending of a cut, 1 / radius, positive where it turns to the left; 0 for a line. */
export const curvatureOf = (segment: Segment): number =>
  segment.kind === 'line' ? 0 : (segment.sweep < 0 ? -1 : 1) / segment.radius;

/** The same cut travelled the other way. */
export function reversed<C extends Curve>(curve: C): C;
export function reversed(curve: Curve): Curve {
  const ends = { from: curve.to, to: curve.from };
  if (curve.kind === 'line') return { ...curve, ...ends };
  if (curve.kind === 'arc') return { ...curve, ...ends, sweep: -curve.sweep };
  return { ...curve, ...ends, start: curve.start + curve.sweep, sweep: -curve.sweep };
}

/** Turned about the origin (rad, counter-clockwise, exact at quarter turns), then shifted (mm). */
export function moved<C extends Curve>(curve: C, turn: number, shift: Point): C;
export function moved(curve: Curve, turn: number, shift: Point): Curve {
  const place = (p: Point): Point => plus(turn === 0 ? p : turned(p, turn), shift);
  const ends = { from: place(curve.from), to: place(curve.to) };
  if (curve.kind === 'line') return { ...curve, ...ends };
  if (curve.kind === 'arc') return { ...curve, ...ends, centre: place(curve.centre) };
  return { ...curve, ...ends, centre: place(curve.centre), turn: curve.turn + turn };
}

/** Seen in a mirror that stands upright on x = `at`: left becomes right, and the travel turns about. */
export function mirrored<C extends Curve>(curve: C, at: number): C;
export function mirrored(curve: Curve, at: number): Curve {
  const place = (p: Point): Point => [2 * at - p[0], p[1]];
  const ends = { from: place(curve.from), to: place(curve.to) };
  if (curve.kind === 'line') return { ...curve, ...ends };
  const centre = place(curve.centre);
  if (curve.kind === 'arc') return { ...curve, ...ends, centre, sweep: -curve.sweep };
  return { ...curve, ...ends, centre, turn: -curve.turn, start: Math.PI - curve.start, sweep: -curve.sweep };
}

/** The part of a cut between t0 and t1 (0 <= t0 < t1 <= 1), with its ends where they are known better. */
export function partOf(
  segment: Segment,
  t0: number,
  t1: number,
  from = pointAt(segment, t0),
  to = pointAt(segment, t1),
): Segment {
  if (t0 === 0 && t1 === 1 && from === segment.from && to === segment.to) return segment;
  if (segment.kind === 'line') return line(from, to);
  return arcBetween(from, to, segment.centre, segment.radius, segment.sweep * (t1 - t0));
}

/**
 * Where along a cut, in [0, 1], a point lies on it; NaN where it is more than `off` (mm) to the side, or more than
 * the same-point tolerance beyond an end. A point that near to an end counts as the end.
 */
export function placeOn(segment: Segment, point: Point, off: number = tolerance.samePoint): number {
  const near = tolerance.samePoint;
  const { from, to } = segment;
  const x = point[0] - from[0];
  const y = point[1] - from[1];
  if (segment.kind === 'line') {
    const dx = to[0] - from[0];
    const dy = to[1] - from[1];
    const length = Math.hypot(dx, dy);
    if (Math.abs(x * dy - y * dx) > off * length) return NaN;
    const along = (x * dx + y * dy) / length;
    if (along < -near || along > length + near) return NaN;
    return along <= near ? 0 : along >= length - near ? 1 : along / length;
  }
  const { centre, radius, sweep } = segment;
  const v: Point = [point[0] - centre[0], point[1] - centre[1]];
  if (Math.abs(Math.hypot(v[0], v[1]) - radius) > off) return NaN;
  if (Math.abs(x) <= near && Math.abs(y) <= near) return 0;
  if (Math.abs(point[0] - to[0]) <= near && Math.abs(point[1] - to[1]) <= near) return 1;
  const along = turnFrom(minus(from, centre), v, sweep) / sweep;
  return along <= 1 ? along : NaN;
}

/** The turn from one direction to another in the sense of `sense`: [0, 2 pi) counter-clockwise, or minus that. */
export function turnFrom(from: Point, to: Point, sense: number): number {
  const angle = Math.atan2(cross(from, to), dot(from, to));
  if (sense >= 0) return angle < 0 ? angle + FULL : angle;
  return angle > 0 ? angle - FULL : angle;
}

/**
 * Whether an arc has a point in the direction (x, y) from its centre. By signs of areas only, and without taking
 * points apart by pattern: it is asked ten thousand times a plate, mostly before the code is warm.
 */
export function reachesToward({ from, to, centre, sweep }: Arc, x: number, y: number): boolean {
  const start = sweep > 0 ? from : to;
  const end = sweep > 0 ? to : from;
  const fromStart = (start[0] - centre[0]) * y - (start[1] - centre[1]) * x;
  const toEnd = x * (end[1] - centre[1]) - y * (end[0] - centre[0]);
  return Math.abs(sweep) <= Math.PI ? fromStart >= 0 && toEnd >= 0 : fromStart >= 0 || toEnd >= 0;
}

/** A closed run whose neighbours share their joints to the last digit: each end moved onto the next start. */
export const joinedUp = <C extends Curve>(pieces: readonly C[]): readonly C[] =>
  pieces.map((piece, i) => ({ ...piece, to: (pieces[(i + 1) % pieces.length] ?? piece).from }));
