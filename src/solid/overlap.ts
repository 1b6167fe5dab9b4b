import { cosSin } from '../base/numbers.js';
import { areaOfCurves } from '../geom/loops.js';
import { boundsOfCurves } from '../geom/bounds.js';
import type { Curve, CurveLoop } from '../geom/segments.js';

/** Fraction of the smaller area within which the integral is trusted, and "all of it" is taken as exact. */
const WITHIN = 1e-8;

/**
 * Area that two contours have in common, mm^2: 0 where they lie apart, the whole of one where it lies in
 * the other (both exact), else the integral of the shared length of upright lines, by adaptive Simpson.
 * Needed for a pocket that an opening runs into: what is open already cannot be sunk again.
 */
export function sharedArea(a: CurveLoop, b: CurveLoop): number {
  const [boxA, boxB] = [boundsOfCurves(a), boundsOfCurves(b)];
  const left = Math.max(boxA.left, boxB.left);
  const right = Math.min(boxA.right, boxB.right);
  if (left >= right || boxA.bottom >= boxB.top || boxB.bottom >= boxA.top) return 0;
  const whole = [Math.abs(areaOfCurves(a)), Math.abs(areaOfCurves(b))];
  const slack = WITHIN * Math.min(...whole);
  const shared = integral(
    (x) => sharedLength(heightsAt(a, x), heightsAt(b, x)),
    stations(a, b, left, right),
    slack,
  );
  return [0, ...whole].find((area) => Math.abs(shared - area) <= 10 * slack) ?? shared;
}

/** Where the integrand may bend: the ends of every piece, and both ends of the range. */
function stations(a: CurveLoop, b: CurveLoop, left: number, right: number): number[] {
  const inside = [...a, ...b].map((piece) => piece.from[0]).filter((x) => x > left && x < right);
  return [...new Set([left, ...inside, right])].sort((p, q) => p - q);
}

/** The heights at which an upright line at x crosses a contour, rising. Taken in pairs, metal lies between. */
const heightsAt = (loop: CurveLoop, x: number): number[] =>
  loop.flatMap((piece) => crossingsAt(piece, x)).sort((p, q) => p - q);

function crossingsAt(piece: Curve, x: number): number[] {
  const { from, to } = piece;
  if (piece.kind === 'line') {
    // Half-open, so that a corner on the line counts once.
    if (from[0] <= x === to[0] <= x) return [];
    return [from[1] + ((x - from[0]) / (to[0] - from[0])) * (to[1] - from[1])];
  }
  // x - centre = A cos t - B sin t = M cos(t + lag)
  const [c, s] = cosSin(piece.kind === 'ellipse' ? piece.turn : 0);
  const [major, minor] = piece.kind === 'ellipse' ? [piece.major, piece.minor] : [piece.radius, piece.radius];
  const [reach, lag] = [Math.hypot(major * c, minor * s), Math.atan2(minor * s, major * c)];
  const cosine = (x - piece.centre[0]) / reach;
  if (!(Math.abs(cosine) < 1)) return [];
  const start =
    piece.kind === 'ellipse' ? piece.start : Math.atan2(from[1] - piece.centre[1], from[0] - piece.centre[0]);
  return [1, -1]
    .map((sign) => sign * Math.acos(cosine) - lag)
    .filter((t) => isOnSweep(t - start, piece.sweep))
    .map((t) => piece.centre[1] + major * Math.cos(t) * s + minor * Math.sin(t) * c);
}

function isOnSweep(turn: number, sweep: number): boolean {
  const full = 2 * Math.PI;
  const along = sweep > 0 ? turn : -turn;
  return ((along % full) + full) % full < Math.abs(sweep);
}

function sharedLength(a: readonly number[], b: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i + 1 < a.length; i += 2) {
    for (let j = 0; j + 1 < b.length; j += 2) {
      sum += Math.max(0, Math.min(a[i + 1] ?? 0, b[j + 1] ?? 0) - Math.max(a[i] ?? 0, b[j] ?? 0));
    }
  }
  return sum;
}

/** Adaptive Simpson between stations, to an absolute error. */
function integral(f: (x: number) => number, stations: readonly number[], within: number): number {
  const refine = (
    a: number,
    fa: number,
    b: number,
    fb: number,
    m: number,
    fm: number,
    rough: number,
    slack: number,
    depth: number,
  ): number => {
    const [l, r] = [(a + m) / 2, (m + b) / 2];
    const [fl, fr] = [f(l), f(r)];
    const left = ((m - a) / 6) * (fa + 4 * fl + fm);
    const right = ((b - m) / 6) * (fm + 4 * fr + fb);
    const change = left + right - rough;
    if (depth === 0 || Math.abs(change) <= 15 * slack) return left + right + change / 15;
    return (
      refine(a, fa, m, fm, l, fl, left, slack / 2, depth - 1) +
      refine(m, fm, b, fb, r, fr, right, slack / 2, depth - 1)
    );
  };
  let sum = 0;
  for (let i = 0; i + 1 < stations.length; i++) {
    // The ends are taken just inside, where a corner belongs to one side only.
    const [from, to] = [stations[i] ?? 0, stations[i + 1] ?? 0];
    const inset = (to - from) * 1e-12;
    const [a, b] = [from + inset, to - inset];
    const m = (a + b) / 2;
    const [fa, fm, fb] = [f(a), f(m), f(b)];
    sum += refine(a, fa, b, fb, m, fm, ((b - a) / 6) * (fa + 4 * fm + fb), within / stations.length, 40);
  }
  return sum;
}
