import type { Point } from '../base/points.js';

/** A straight cut. */
export interface Line {
  readonly kind: 'line';
  readonly from: Point;
  readonly to: Point;
}

/** A round cut. `sweep` is signed (rad): positive counter-clockwise. A full circle is two arcs. */
export interface Arc {
  readonly kind: 'arc';
  readonly from: Point;
  readonly to: Point;
  readonly centre: Point;
  readonly radius: number;
  readonly sweep: number;
}

/**
 * A piece of an ellipse: point(t) = centre + turned by `turn` of (major cos t, minor sin t),
 * t from `start` over the signed `sweep` (rad). Only solids carry these; a cut file has lines and arcs.
 */
export interface EllipseArc {
  readonly kind: 'ellipse';
  readonly from: Point;
  readonly to: Point;
  readonly centre: Point;
  /** Semi-axes, mm; `major` lies along `turn` and is not smaller than `minor`. */
  readonly major: number;
  readonly minor: number;
  readonly turn: number;
  readonly start: number;
  readonly sweep: number;
}

/** What a table can cut exactly. */
export type Segment = Line | Arc;
/** What the kernel can model exactly. */
export type Curve = Segment | EllipseArc;
/** A closed run of segments, head to tail; counter-clockwise encloses metal, by our custom every loop is. */
export type Loop = readonly Segment[];
/** Sheet metal with holes: outer loops counter-clockwise, holes clockwise, none crossing another. */
export type Region = readonly Loop[];
/** A closed run that may hold pieces of ellipses. */
export type CurveLoop = readonly Curve[];
/** One stroke of a single-line mark. */
export type Stroke = readonly Point[];
