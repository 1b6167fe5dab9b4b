import type { Vector } from '../base/vectors.js';
import type { Motion } from '../geom/rigid-fit.js';

/*
 * What the header must stay clear of. Lengths mm, places in the engine's frame (right, up, out).
 */

export type KeepOutShape =
  | { readonly kind: 'box'; readonly from: Vector; readonly to: Vector }
  | {
      readonly kind: 'cylinder' | 'capsule';
      readonly from: Vector;
      readonly to: Vector;
      readonly diameter: number;
    }
  /** Solid on the side away from the normal. */
  | { readonly kind: 'plane'; readonly at: Vector; readonly normal: Vector }
  | {
      readonly kind: 'mesh' | 'step';
      /** Beside the job. */
      readonly file: string;
      /** Of the file's numbers, mm; 1 for STEP, which is read as mm. */
      readonly unit: number;
      /** From the file's frame, in mm, into the engine's. */
      readonly motion: Motion;
    };

export interface KeepOut {
  readonly name: string;
  readonly path: string;
  readonly shape: KeepOutShape;
  readonly clear: number;
  /** What it is, where the job says so: steering, brake line, ... */
  readonly what: string | undefined;
  readonly fixedTo: 'engine' | 'body';
  readonly headOf: readonly string[];
  /** Which way it is drawn out when it is taken off for service. */
  readonly comesOut: 'left' | 'right' | 'up' | 'down' | 'out' | undefined;
}
