import type { DefaultTaken, Guess, Tube } from './job.js';

/*
 * The rack: what one can buy or has on hand. Lengths mm, angles rad. Prices in any one currency.
 */

/** What the saw and the wheel take away. */
export interface Saw {
  /** Width of the cut, mm. */
  readonly kerf: number;
  /** Taken off each sawn face to make it flat, mm. */
  readonly dress: number;
  /** Cut off each raw tube end before it is used, mm. */
  readonly rawTrim: number;
}

/** A mandrel bend: end A with its leg, the arc, end B with its leg. */
export interface RackBend {
  /** Its key in the rack file: `bends.0`, `offcuts.2`. */
  readonly path: string;
  /** Centre-line radius, mm. */
  readonly clr: number;
  readonly angle: number;
  /** Straight lengths before and behind the arc, mm; 0 where the tube ends in the arc. */
  readonly legs: readonly [a: number, b: number];
  readonly price: number;
  /** How many there are; Infinity where it can be bought at any time. */
  readonly quantity: number;
}

/** A straight length of tube. */
export interface RackStraight {
  readonly path: string;
  readonly length: number;
  readonly price: number;
  readonly quantity: number;
}

export interface Rack {
  /** Name of its file, where it has one. */
  readonly file: string | undefined;
  readonly unit: 'mm' | 'in';
  readonly tube: Tube;
  readonly saw: Saw;
  /** Bought bends, then bent offcuts. */
  readonly bends: readonly RackBend[];
  /** Bought straights, then straight offcuts. */
  readonly straights: readonly RackStraight[];
  readonly defaults: readonly DefaultTaken[];
  readonly guesses: readonly Guess[];
}
