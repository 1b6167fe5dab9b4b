import type { Vector } from '../base/vectors.js';

/*
 * The fixture that holds the tubes while they are tacked. Lengths mm, angles rad, places in the engine's frame.
 */

/** One printed holder asked for: which primary, how far along its centre line from its start. */
export interface CradlePlace {
  readonly primary: string;
  readonly station: number;
  readonly path: string;
}

export interface TackFixtureSpec {
  readonly cradle: {
    /** Along the tube. */
    readonly width: number;
    /** Metal (plastic) left under and beside the tube. */
    readonly wall: number;
    readonly clearanceStraight: number;
    readonly clearanceBend: number;
    /** How far round the tube the saddle reaches, rad, at most pi. */
    readonly embrace: number;
    readonly strap: { readonly width: number; readonly depth: number } | undefined;
    readonly foot: { readonly thickness: number; readonly tab: number; readonly hole: number };
    readonly engrave: number;
    /** `auto`: the program chooses. */
    readonly at: 'auto' | readonly CradlePlace[];
  };
  /** The plane the cradles stand on. */
  readonly base: { readonly at: Vector; readonly normal: Vector };
  readonly printerBed: readonly [number, number, number];
}
