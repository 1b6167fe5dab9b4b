/**
 * The point nearest to the origin of the hull of up to four points (x, y, z in turn): a point, an edge, a face,
 * or the inside of a tetrahedron. Every corner, edge and face is tried, which is slower than walking them but
 * cannot go astray where they are nearly flat.
 */
export interface NearestOfSimplex {
  /** The nearest point. */
  readonly at: Float64Array;
  /** Which of the points it stands on, as bits. */
  bits: number;
}

const CORNERS = [1, 2, 4, 8];
const EDGES = [3, 5, 9, 6, 10, 12];
const FACES = [7, 11, 13, 14];

const px = (p: Float64Array, i: number, k: number): number => p[3 * i + k] as number;
const dot = (p: Float64Array, i: number, j: number): number =>
  px(p, i, 0) * px(p, j, 0) + px(p, i, 1) * px(p, j, 1) + px(p, i, 2) * px(p, j, 2);
const members = [...Array(16).keys()].map((bits) => [0, 1, 2, 3].filter((i) => (bits >> i) & 1));

/** Whether the origin is inside the tetrahedron of four points: on the inner side of every face. */
function holdsOrigin(p: Float64Array): boolean {
  for (const bits of FACES) {
    const [a, b, c] = members[bits] as [number, number, number];
    const apex = (members[15 - bits] as [number])[0];
    const u = [0, 1, 2].map((k) => px(p, b, k) - px(p, a, k)) as [number, number, number];
    const v = [0, 1, 2].map((k) => px(p, c, k) - px(p, a, k)) as [number, number, number];
    const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]] as const;
    let [toApex, toOrigin] = [0, 0];
    for (let k = 0; k < 3; k++) {
      toApex += (n[k] as number) * (px(p, apex, k) - px(p, a, k));
      toOrigin -= (n[k] as number) * px(p, a, k);
    }
    if (!(toApex * toOrigin > 0)) return false;
  }
  return true;
}

/** @param count how many of the points there are, 1 to 4 */
export function nearestOfSimplex(p: Float64Array, count: number, into: NearestOfSimplex): void {
  const present = (1 << count) - 1;
  let best = Infinity;
  const keep = (bits: number, weights: readonly number[]): void => {
    const on = members[bits] as number[];
    let [x, y, z] = [0, 0, 0];
    on.forEach((i, k) => {
      const w = weights[k] as number;
      x += w * px(p, i, 0);
      y += w * px(p, i, 1);
      z += w * px(p, i, 2);
    });
    const squared = x * x + y * y + z * z;
    if (!(squared < best)) return;
    best = squared;
    into.at[0] = x;
    into.at[1] = y;
    into.at[2] = z;
    into.bits = bits;
  };
  if (count === 4 && holdsOrigin(p)) {
    into.at.fill(0);
    into.bits = 15;
    return;
  }
  for (const bits of CORNERS) if ((bits & present) === bits) keep(bits, [1]);
  for (const bits of EDGES) {
    if ((bits & present) !== bits) continue;
    const [a, b] = members[bits] as [number, number];
    const [aa, ab, bb] = [dot(p, a, a), dot(p, a, b), dot(p, b, b)];
    const t = (aa - ab) / (aa - 2 * ab + bb);
    if (t > 0 && t < 1) keep(bits, [1 - t, t]);
  }
  for (const bits of FACES) {
    if ((bits & present) !== bits) continue;
    const [a, b, c] = members[bits] as [number, number, number];
    const [aa, ab, ac, bb, bc, cc] = [
      dot(p, a, a),
      dot(p, a, b),
      dot(p, a, c),
      dot(p, b, b),
      dot(p, b, c),
      dot(p, c, c),
    ];
    const [uu, uv, vv] = [bb - 2 * ab + aa, bc - ab - ac + aa, cc - 2 * ac + aa];
    const [ua, va] = [aa - ab, aa - ac];
    const whole = uu * vv - uv * uv;
    const s = (ua * vv - va * uv) / whole;
    const t = (va * uu - ua * uv) / whole;
    if (s > 0 && t > 0 && s + t < 1) keep(bits, [1 - s - t, s, t]);
  }
}
