import { pointOn, STRIDE, type PackedLine } from './packed-line.js';
import { leastDistanceTo, type SolidSet } from './solids.js';

/** How a march goes: smallest step, where it gives up, and the most it cares about. All mm. */
export interface March {
  /** Smallest step: what is found lies at most half of it above the truth. */
  readonly floor: number;
  /** Ends early below this. */
  readonly stop: number;
  /** Spares larger than this are not told apart. */
  readonly cap: number;
}

/** What a march has found. */
export interface Found {
  /** Index of the solid, or -1 where all is further off than the cap. */
  solid: number;
  station: number;
}

const here = new Float64Array(3);

/** A place further off than the least so far by this (mm) need not be known better: the step is long enough. */
const LEAP = 4;

/**
 * The least spare (mm) between a tube and solids over a span of its line: distance of the centre line, less
 * the tube's radius and the clearance asked. Below 0 it is not clear.
 *
 * Distance changes by no more than the way moved, so from a point with a spare of f the next place that could
 * beat the least so far, m, is f - m further on: the march steps by that, but never by less than the floor.
 * The result is never below the truth, and at most floor / 2 above it.
 * With cap and stop both at a threshold it only answers whether the spare reaches that threshold, quickest.
 */
export function leastSpare(
  line: PackedLine,
  solids: SolidSet,
  span: readonly [from: number, to: number],
  radius: number,
  { floor, stop, cap }: March,
  found?: Found,
): number {
  const { data, pieces } = line;
  const [from, to] = span;
  let least = cap;
  let s = from;
  let piece = 0;
  if (found) found.solid = -1;
  for (;;) {
    while (
      piece < pieces - 1 &&
      s > (data[piece * STRIDE + 1] as number) + (data[piece * STRIDE + 2] as number)
    )
      piece++;
    pointOn(data, piece, s, here);
    const enough = least + radius + (floor > LEAP ? floor : LEAP);
    const spare =
      leastDistanceTo(solids, here[0] as number, here[1] as number, here[2] as number, enough) - radius;
    if (spare < least) {
      least = spare;
      if (found) {
        found.solid = solids.nearest;
        found.station = s;
      }
      if (least < stop) return least;
    }
    if (s >= to) return least;
    const step = spare - least;
    s += step > floor ? step : floor;
    if (s > to) s = to;
  }
}
