import { STRIDE } from './packed-line.js';

/**
 * Squared distance (mm2) of a point to the pieces `first` to `last` - 1 of a packed line; exact.
 * Point to arc: with a, b the point's coordinates in the arc's plane, it is (sqrt(a2 + b2) - CLR)2 plus the
 * squared height where the point stands within the arc's wedge, and the nearer end elsewhere. The ends of
 * bends belong to the straights beside them as well, so a bend's ends are left out here: use `arcEnds` too
 * where a bend is looked at without its straights.
 */
export function squaredToPieces(
  data: Float64Array,
  first: number,
  last: number,
  x: number,
  y: number,
  z: number,
): number {
  let best = Infinity;
  for (let i = first; i < last; i++) {
    const o = i * STRIDE;
    const vx = x - (data[o + 3] as number);
    const vy = y - (data[o + 4] as number);
    const vz = z - (data[o + 5] as number);
    const along = vx * (data[o + 6] as number) + vy * (data[o + 7] as number) + vz * (data[o + 8] as number);
    if (data[o] === 0) {
      const long = data[o + 2] as number;
      const t = along < 0 ? 0 : along > long ? long : along;
      const ax = vx - t * (data[o + 6] as number);
      const ay = vy - t * (data[o + 7] as number);
      const az = vz - t * (data[o + 8] as number);
      const q = ax * ax + ay * ay + az * az;
      if (q < best) best = q;
      continue;
    }
    const b = vx * (data[o + 9] as number) + vy * (data[o + 10] as number) + vz * (data[o + 11] as number);
    if (b < 0 || along * (data[o + 13] as number) < b * (data[o + 14] as number)) continue;
    const flat = along * along + b * b;
    const off = Math.sqrt(flat) - (data[o + 12] as number);
    const high = vx * vx + vy * vy + vz * vz - flat;
    const q = off * off + (high > 0 ? high : 0);
    if (q < best) best = q;
  }
  return best;
}

/** Squared distance (mm2) of a point to the nearer end of bend `piece`. */
export function squaredToArcEnds(data: Float64Array, piece: number, x: number, y: number, z: number): number {
  const o = piece * STRIDE;
  const clr = data[o + 12] as number;
  let [first, last] = [0, 0];
  for (let i = 0; i < 3; i++) {
    const centre = data[o + 3 + i] as number;
    const out = data[o + 6 + i] as number;
    const v = (i === 0 ? x : i === 1 ? y : z) - centre;
    const end =
      clr * (out * (data[o + 14] as number) + (data[o + 9 + i] as number) * (data[o + 13] as number));
    first += (v - clr * out) ** 2;
    last += (v - end) ** 2;
  }
  return Math.min(first, last);
}
