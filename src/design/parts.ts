import type { Point } from '../base/points.js';
import type { CentreLinePiece } from '../geom/centre-line.js';
import type { CurveLoop, Loop, Stroke } from '../geom/segments.js';

/*
 * What the design room decides and the later rooms make: data only.
 * A plate lies with its drawing's x right and y up, seen from the side that is up on the table;
 * its solid stands on z 0 (the far side) up to z = thickness (the side seen).
 */

/** An opening cut through the plate. */
export interface Opening {
  /** `port P1`, `tube S2`, `star`, `relief 1-2`, `slot for stud 3`. */
  readonly name: string;
  /** Lines and arcs: what the table cuts. */
  readonly loop: Loop;
  /** The same with true ellipses, where the loop only fits them: what the solid is made from. */
  readonly exact: CurveLoop | undefined;
  /**
   * Set where the table cannot cut so narrow a slot: holes to drill at both its ends, the rest filed out.
   * The cut file then marks the two centres and etches the slot's edge; the solid has the slot.
   */
  readonly drill?: { readonly diameter: number; readonly ends: readonly [Point, Point] };
}

/** A round hole. Drilled ones are marked on the cut file, not cut by the table; the solid has them all. */
export interface RoundHole {
  readonly name: string;
  readonly at: Point;
  readonly diameter: number;
  readonly made: 'cut' | 'drilled';
}

/** A flat-floored pocket from the side seen, such as a socket for a tube. The table only etches its edge. */
export interface Pocket {
  readonly name: string;
  readonly loop: Loop;
  readonly depth: number;
}

/** Single-line marks on the side seen. */
export interface Mark {
  readonly name: string;
  readonly strokes: readonly Stroke[];
}

export interface PlatePart {
  readonly kind: 'plate';
  /** File name without its ending: `flange`, `flange-2`, `merge-plate`, `strongback`. */
  readonly name: string;
  /** What build calls it in --only: `flange`, `merge-plate`, `strongback`. */
  readonly family: string;
  readonly title: string;
  readonly material: string;
  readonly thickness: number;
  readonly outline: Loop;
  readonly openings: readonly Opening[];
  readonly holes: readonly RoundHole[];
  readonly pockets: readonly Pocket[];
  readonly marks: readonly Mark[];
  /** Said on every drawing: `seen from the tube side`. */
  readonly view: string;
  /** Lines for the drawing and the summary: what to do with it at the bench, cautions last. */
  readonly remarks: readonly string[];
  /** Least metal between any two edges, as designed; measured again on the drawing read back. */
  readonly leastWeb: { readonly asked: number; readonly found: number; readonly where: string };
}

/**
 * A printed holder for a tube at one station. Its own frame: the foot stands on z = 0, x runs along the
 * tube as seen from above, the tube's centre line passes (0, 0, height).
 */
export interface CradlePart {
  readonly kind: 'cradle';
  /** `cradle-P1-1` */
  readonly name: string;
  readonly family: 'cradle';
  readonly title: string;
  /** The tube's OD. */
  readonly od: number;
  /** Radial gap between tube and saddle. */
  readonly clearance: number;
  /** How high the centre line passes over the foot's underside. */
  readonly height: number;
  /** Rise of the tube's direction above the foot's plane, rad, signed. */
  readonly tilt: number;
  /** The bend it sits on, or undefined on a straight. `clock`: turning direction about the flow, rad, from the frame's up made square to the flow. */
  readonly bend: { readonly clr: number; readonly clock: number } | undefined;
  /** Length along x. */
  readonly width: number;
  /** Half breadth of the block along y. */
  readonly halfBreadth: number;
  /** How far round the tube the saddle reaches, rad. */
  readonly embrace: number;
  /** The slot that a strap is drawn through, from side to side: its floor stands `floor` over the foot's underside. */
  readonly strap: { readonly width: number; readonly depth: number; readonly floor: number } | undefined;
  readonly foot: { readonly thickness: number; readonly tab: number; readonly hole: number };
  readonly engraving: { readonly text: string; readonly depth: number; readonly height: number };
  readonly remarks: readonly string[];
  /** For the fixture's record. */
  readonly primary: string;
  readonly station: number;
}

/** One primary from flange to slot, as a solid in the engine's frame: to look at, and to check room with. */
export interface TubePart {
  readonly kind: 'tube';
  /** `primary-P1` */
  readonly name: string;
  readonly family: 'primary';
  readonly title: string;
  readonly od: number;
  readonly wall: number;
  readonly material: string;
  readonly pieces: readonly CentreLinePiece[];
  /** Of the centre line, mm. */
  readonly length: number;
  readonly remarks: readonly string[];
}

export type Part = PlatePart | CradlePart | TubePart;
