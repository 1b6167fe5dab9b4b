import { reversedLoop, areaOf, isInside, pointOf } from './loops.js';
import { union } from './combine.js';
import { grow, offset } from './offset.js';
import type { Loop } from './segments.js';

/** The outside of a plate, and whether it is one plate at all. */
export interface PlateOutline {
  /** The outline; of several pieces the largest. */
  readonly outline: Loop;
  /** How many pieces the pads make: more than one is for the caller to tell. */
  readonly pieces: number;
  /** The outlines of the other pieces, the larger first. */
  readonly others: readonly Loop[];
}

/**
 * The outline of a plate made of pads (mm): all that the pads cover, with every concave corner between them rounded
 * by an arc of radius `fillet`, pockets so enclosed filled. Exact: only lines and arcs of the pads themselves and
 * fillets. Every pad grows by the fillet, all are united, and the outline moves back in by the fillet: a disc of
 * that radius rolled round the pads draws the same line. Convex corners of the pads stay as they are.
 * Pockets are filled last, for moving in may open one to the outside.
 * Pads that come close without meeting are bridged only where the fillets on both sides clear each other.
 * @param pads loops, in either sense; concave ones are taken too
 * @param fillet 0 leaves concave corners sharp
 * @throws Error for no pads, or naming the place where the outline cannot be closed
 */
export function plateOutline(pads: readonly Loop[], fillet: number): PlateOutline {
  const grown = pads.map((pad) => [grow(areaOf(pad) < 0 ? reversedLoop(pad) : pad, fillet)]);
  const outer = offset(union(grown), -fillet)
    .map((loop) => ({ loop, area: areaOf(loop) }))
    .filter(({ area }) => area > 0)
    .sort((a, b) => b.area - a.area);
  // The larger come first: a piece within a pocket of a larger one is lost in the filling.
  const separate: Loop[] = [];
  for (const { loop } of outer) {
    if (!separate.some((larger) => isInside(larger, pointOf(loop)))) separate.push(loop);
  }
  const [outline, ...others] = separate;
  if (!outline) throw new Error('no pads to draw an outline round');
  return { outline, pieces: separate.length, others };
}
