import type { Vector } from '../base/vectors.js';

/** The collector. Lengths mm, angles rad, places in the engine's frame (right, up, out). */
export interface CollectorSpec {
  readonly kind: 'merge' | 'plate and cone';
  readonly joint: 'slip' | 'welded';
  /** On its axis, level with the primaries' ends. */
  readonly at: Vector;
  /** Unit direction of the gas. */
  readonly flow: Vector;
  readonly halfAngle: number;
  /** Of S1 from the collector's clocking zero; absent: free. */
  readonly clocking: number | undefined;
  readonly slotGap: number;
  readonly slip: { readonly depth: number; readonly gap: number; readonly sleeveWall: number };
  readonly body: { readonly length: number; readonly diameter: number | undefined; readonly clear: number };
  readonly outlet: { readonly od: number } | undefined;
  readonly mayMove: { readonly along: number; readonly across: number; readonly tilt: number };
  readonly slots: 'shortest' | 'firing' | readonly string[];
}
