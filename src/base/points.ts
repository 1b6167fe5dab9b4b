import { cosSin } from './numbers.js';

/** A place on a flat drawing: x right, y up, mm. */
export type Point = readonly [x: number, y: number];

export const plus = (a: Point, b: Point): Point => [a[0] + b[0], a[1] + b[1]];
export const minus = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1]];
export const times = (a: Point, k: number): Point => [a[0] * k, a[1] * k];
export const dot = (a: Point, b: Point): number => a[0] * b[0] + a[1] * b[1];
/** Positive where b lies counter-clockwise of a. */
export const cross = (a: Point, b: Point): number => a[0] * b[1] - a[1] * b[0];
export const size = (a: Point): number => Math.hypot(a[0], a[1]);
export const distance = (a: Point, b: Point): number => Math.hypot(a[0] - b[0], a[1] - b[1]);
export const middle = (a: Point, b: Point): Point => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
/** A quarter turn counter-clockwise. */
export const left = (a: Point): Point => [-a[1], a[0]];

/** The direction of a, length 1. The caller makes sure that a is not zero. */
export const unit = (a: Point): Point => times(a, 1 / size(a));

/** Turned counter-clockwise about the origin by an angle (rad), exact at quarter turns. */
export function turned(a: Point, angle: number): Point {
  const [c, s] = cosSin(angle);
  return [c * a[0] - s * a[1], s * a[0] + c * a[1]];
}
