import { distance3, type Vector } from '../../base/vectors.js';

type Box = { readonly from: Vector; readonly to: Vector };

/** Length of the shortest way from a to b that touches the line `across` = `at` within the plane `axis` = `level`. */
function overEdge(a: Vector, b: Vector, axis: number, level: number, across: number, at: number): number {
  const along = 3 - axis - across;
  const da = Math.hypot((a[axis] as number) - level, (a[across] as number) - at);
  const db = Math.hypot((b[axis] as number) - level, (b[across] as number) - at);
  return Math.hypot(da + db, (a[along] as number) - (b[along] as number));
}

/**
 * A length (mm) that no way from a to b can beat that keeps `clear` mm from a box standing between them, as
 * the crow flies where it does not stand between.
 * Where a and b lie on either side of the box along one of its axes, the way crosses the plane half way
 * through the box, and there it must be outside of the box's section by the clearance. The section is grown
 * by clear / sqrt 2 along each axis: even at its rounded corners, what is allowed lies outside of that. So
 * the way passes beyond one of four edges, and to each of them the shortest way is unfolded flat.
 * @see own derivation; tests/design/route against ways searched by brute force
 */
export function leastWayRound(a: Vector, b: Vector, box: Box, clear: number): number {
  let least = distance3(a, b);
  const grown = clear / Math.SQRT2;
  for (let axis = 0; axis < 3; axis++) {
    const [low, high] = [box.from[axis] as number, box.to[axis] as number];
    const [pa, pb] = [a[axis] as number, b[axis] as number];
    if (!((pa < low && pb > high) || (pb < low && pa > high))) continue;
    const level = (low + high) / 2;
    const share = (level - pa) / (pb - pa);
    const crossing = a.map((x, i) => x + share * ((b[i] as number) - x));
    let round = Infinity;
    for (let across = 0; across < 3; across++) {
      if (across === axis) continue;
      for (const [side, edge] of [
        [-1, (box.from[across] as number) - grown],
        [1, (box.to[across] as number) + grown],
      ] as const) {
        // Straight ahead already passes beyond this edge.
        if (side * ((crossing[across] as number) - edge) >= 0) round = Math.min(round, distance3(a, b));
        else round = Math.min(round, overEdge(a, b, axis, level, across, edge));
      }
    }
    least = Math.max(least, round);
  }
  return least;
}
