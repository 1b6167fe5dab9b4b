import { cosSin } from './numbers.js';

/** A place or direction in the engine's frame: right, up, out (mm, or a pure direction). */
export type Vector = readonly [right: number, up: number, out: number];

export const add = (a: Vector, b: Vector): Vector => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const subtract = (a: Vector, b: Vector): Vector => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const scale = (a: Vector, k: number): Vector => [a[0] * k, a[1] * k, a[2] * k];
export const dot3 = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross3 = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const length3 = (a: Vector): number => Math.hypot(a[0], a[1], a[2]);
export const distance3 = (a: Vector, b: Vector): number => length3(subtract(a, b));

/** The direction of a, length 1. The caller makes sure that a is not zero. */
export const direction = (a: Vector): Vector => scale(a, 1 / length3(a));

/** The part of `a` square to the unit vector `axis`. */
export const squareTo = (a: Vector, axis: Vector): Vector => subtract(a, scale(axis, dot3(a, axis)));

/** Turned about a unit axis through the origin, right hand, by an angle (rad): Rodrigues' formula. */
export function turnedAbout(a: Vector, axis: Vector, angle: number): Vector {
  const [c, s] = cosSin(angle);
  return add(add(scale(a, c), scale(cross3(axis, a), s)), scale(axis, dot3(axis, a) * (1 - c)));
}
