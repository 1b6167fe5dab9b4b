import type { Vector } from '../base/vectors.js';

/*
 * The tube and the primaries of a job. Lengths mm, angles rad, places in the engine's frame (right, up, out).
 */

export interface Tube {
  readonly od: number;
  readonly wall: number;
  readonly material: string;
}

/** How the tube meets the flange. */
export type FlangeJoint =
  | { readonly kind: 'butt' }
  | { readonly kind: 'socket'; readonly depth: number; readonly gap: number }
  /** Through the plate, its end `recess` short of the gasket face; gap on the diameter. */
  | { readonly kind: 'through'; readonly recess: number; readonly gap: number };

/** One row of a route: a straight, or a bend. Straights and bends alternate, straights first and last. */
export type RouteRow =
  { readonly straight: number } | { readonly clr: number; readonly angle: number; readonly clock: number };

/** What a piece measures that came out otherwise than planned, mm and rad; undefined: as planned. */
export interface AsCut {
  readonly angle: number | undefined;
  readonly legUp: number | undefined;
  readonly legDown: number | undefined;
  readonly length: number | undefined;
}

/** How far a primary is built that is not built whole: up to a weld. */
export interface BuiltTo {
  /** The weld's station along the centre line, from the flange's tube side. */
  readonly station: number;
  /** Where its open end was measured, and the way it points (unit); undefined: as designed. */
  readonly end: { readonly at: Vector; readonly direction: Vector } | undefined;
}

export interface PrimariesSpec {
  readonly stub: number;
  readonly between: number;
  readonly lastStraight: number;
  readonly jointAtFlange: FlangeJoint;
  readonly leastAngle: number;
  readonly largestAngle: number;
  /** Primaries that stand already, by primary: whole, or up to a weld. */
  readonly built: Readonly<Record<string, 'whole' | BuiltTo>>;
  /** Routes by hand, by primary. */
  readonly byHand: Readonly<Record<string, readonly RouteRow[]>>;
}
