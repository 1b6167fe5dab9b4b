/**
 * Squared distance (mm2) between two straight spans in space, each six numbers of an array: its two ends. Exact,
 * spans of no length included; it is always the distance of two points of them, so never below the truth.
 * @see "Real-Time Collision Detection", C. Ericson 2005, section 5.1.9, from memory
 */
export function squaredBetweenSpans(p: Float64Array, o: number, q: Float64Array, m: number): number {
  const px = p[o] as number;
  const py = p[o + 1] as number;
  const pz = p[o + 2] as number;
  const qx = q[m] as number;
  const qy = q[m + 1] as number;
  const qz = q[m + 2] as number;
  const ux = (p[o + 3] as number) - px;
  const uy = (p[o + 4] as number) - py;
  const uz = (p[o + 5] as number) - pz;
  const vx = (q[m + 3] as number) - qx;
  const vy = (q[m + 4] as number) - qy;
  const vz = (q[m + 5] as number) - qz;
  const rx = px - qx;
  const ry = py - qy;
  const rz = pz - qz;
  const uu = ux * ux + uy * uy + uz * uz;
  const vv = vx * vx + vy * vy + vz * vz;
  const uv = ux * vx + uy * vy + uz * vz;
  const ur = ux * rx + uy * ry + uz * rz;
  const vr = vx * rx + vy * ry + vz * rz;
  const square = uu * vv - uv * uv;
  // The nearest point of the first line, then of the second span to it, then of the first span to that.
  let s = square > 0 ? within((uv * vr - ur * vv) / square) : 0;
  const t = vv > 0 ? within((uv * s + vr) / vv) : 0;
  s = uu > 0 ? within((uv * t - ur) / uu) : 0;
  const x = rx + s * ux - t * vx;
  const y = ry + s * uy - t * vy;
  const z = rz + s * uz - t * vz;
  return x * x + y * y + z * z;
}

const within = (share: number): number => (share < 0 ? 0 : share > 1 ? 1 : share);
