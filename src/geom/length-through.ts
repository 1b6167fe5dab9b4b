/**
 * Length (mm) of the centre line through intersection points (x, y, z in turn: start, one a bend, end):
 * polygon less 2 CLR tan(angle / 2) - CLR angle a bend. Quick: makes nothing, checks nothing.
 */
export function lengthThrough(points: Float64Array, clrs: readonly number[], bends: number): number {
  let length = 0;
  let [px, py, pz] = [0, 0, 0];
  for (let i = 0; i <= bends; i++) {
    const o = 3 * i;
    let x = (points[o + 3] as number) - (points[o] as number);
    let y = (points[o + 4] as number) - (points[o + 1] as number);
    let z = (points[o + 5] as number) - (points[o + 2] as number);
    const reach = Math.sqrt(x * x + y * y + z * z);
    length += reach;
    x /= reach;
    y /= reach;
    z /= reach;
    if (i > 0) {
      const c = Math.max(-0.9999, Math.min(1, px * x + py * y + pz * z));
      length -= (clrs[i - 1] as number) * (2 * Math.sqrt((1 - c) / (1 + c)) - Math.acos(c));
    }
    px = x;
    py = y;
    pz = z;
  }
  return length;
}
