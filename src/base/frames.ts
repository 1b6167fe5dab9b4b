import type { Point } from './points.js';
import { add, cross3, direction, dot3, scale, squareTo, subtract, type Vector } from './vectors.js';

/** A right-handed frame: where it stands, and its three unit directions. `right x up = out`. */
export interface Frame {
  readonly origin: Vector;
  readonly right: Vector;
  readonly up: Vector;
  readonly out: Vector;
}

/** The head's own frame: you stand looking at the exhaust face; out comes toward you. */
export const bench: Frame = { origin: [0, 0, 0], right: [1, 0, 0], up: [0, 1, 0], out: [0, 0, 1] };

/**
 * A frame from where it stands, which way it faces, and roughly which way is up.
 * `up` is made square to `out`; the caller makes sure that the two are not parallel.
 */
export function frameFacing(origin: Vector, out: Vector, up: Vector): Frame {
  const z = direction(out);
  const y = direction(squareTo(up, z));
  return { origin, right: cross3(y, z), up: y, out: z };
}

/** From a frame's own coordinates to the engine's. */
export const place = (frame: Frame, at: Vector): Vector =>
  add(frame.origin, add(add(scale(frame.right, at[0]), scale(frame.up, at[1])), scale(frame.out, at[2])));

/** From the engine's coordinates to a frame's own. */
export function seenFrom(frame: Frame, at: Vector): Vector {
  const d = subtract(at, frame.origin);
  return [dot3(d, frame.right), dot3(d, frame.up), dot3(d, frame.out)];
}

/** A direction (no place) in a frame's own coordinates. */
export const directionSeenFrom = (frame: Frame, d: Vector): Vector => [
  dot3(d, frame.right),
  dot3(d, frame.up),
  dot3(d, frame.out),
];

/** The first two coordinates of a point seen from a frame: its place on the flat drawing. */
export function flatSeenFrom(frame: Frame, at: Vector): Point {
  const seen = seenFrom(frame, at);
  return [seen[0], seen[1]];
}
