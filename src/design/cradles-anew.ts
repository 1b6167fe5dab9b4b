import { tidy } from '../base/numbers.js';
import type { Problem } from '../base/problems.js';
import type { CentreLine } from '../geom/centre-line.js';
import { packCentreLine } from '../geom/packed-line.js';
import { squaredToPieces } from '../geom/point-to-line.js';
import type { CradlePart } from './parts.js';

/** Points looked at over the length of a saddle. */
const POINTS = 9;

/**
 * How far a tube that came out otherwise lies off the saddle made for its route: the greatest distance of the
 * saddle's axis to the tube's centre line, mm. Up to the saddle's clearance the tube still drops in.
 * @param route the line that the saddle follows
 * @param from where the saddle begins on it, mm, and `to` where it ends
 * @param made the line of the tube as it is
 */
export function offItsSaddle(route: CentreLine, from: number, to: number, made: CentreLine): number {
  const { data, pieces } = packCentreLine(made);
  let worst = 0;
  for (let i = 0; i < POINTS; i++) {
    const station = Math.min(route.length, Math.max(0, from + ((to - from) * i) / (POINTS - 1)));
    worst = Math.max(worst, squaredToPieces(data, 0, pieces, ...route.poseAt(station).at));
  }
  return Math.sqrt(worst);
}

/** Tells of cradles that no longer hold their tube as it came out, and are made anew. */
export function madeAnew(
  cradles: readonly { readonly part: CradlePart; readonly off: number }[],
  path: string,
): readonly Problem[] {
  const off = cradles.filter((one) => one.off > one.part.clearance);
  if (off.length === 0) return [];
  const words = off.map((one) => `${one.part.name} (${tidy(one.off, 1)} mm off)`);
  return [
    {
      code: 'cradle/made-anew',
      severity: 'warning',
      what: `${words.join(', ')} ${off.length === 1 ? 'was' : 'were'} made for a route that the tube as cut has left`,
      why: 'a tube forced into its old saddle springs back when the tacks are made, and misses its slot',
      fix: `print ${off.length === 1 ? 'this 1' : `these ${off.length}`} again; the others still fit`,
      place: { path },
    },
  ];
}
