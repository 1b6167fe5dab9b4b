import { direction, dot3, length3, scale, squareTo, subtract, type Vector } from '../base/vectors.js';
import { tolerance } from '../base/tolerance.js';
import { reachToward, type Body } from './bodies.js';
import { nearestOfSimplex } from './simplex.js';

/** What is told of the gap of two bodies lies at most this below the truth (mm). */
export const APART_BOUND = 0.01;

const ROUNDS = 200;
const points = new Float64Array(12);
const nearest = { at: new Float64Array(3), bits: 0 };
const [ofA, ofB] = [new Float64Array(3), new Float64Array(3)];

/** How far two bodies stand apart as seen along a unit direction from b to a (mm); below 0 they overlap so. */
const apartAlong = (a: Body, b: Body, v: Vector): number => -reachToward(a, scale(v, -1)) - reachToward(b, v);

/**
 * The gap between two convex bodies (mm), never above the truth. Apart: at most APART_BOUND below it.
 * Touching or overlapping: 0 or less, by no more than what moves them apart along a face, or from middle to middle.
 *
 * Gilbert, Johnson and Keerthi's way (1988): walk to the point v of all differences a - b that is nearest to
 * the origin. Any v on the way parts the bodies by v . w / |v|, w their least difference along it: that is
 * what is told, so a walk cut short is only too careful.
 * @param enough stops early once the gap is known to be at least this
 */
export function gapBetween(a: Body, b: Body, enough = Infinity): number {
  const round = a.round + b.round;
  const between = subtract(a.centre, b.centre);
  const spheres = length3(between) - a.reach - b.reach;
  if (spheres >= enough) return spheres;
  let [x, y, z] = between;
  if (length3(between) < tolerance.samePoint) [x, y, z] = [1, 0, 0];
  let least = -Infinity;
  let count = 0;
  let size = Math.sqrt(x * x + y * y + z * z);
  let first = true;
  for (let n = 0; n < ROUNDS; n++) {
    a.furthest(-x, -y, -z, ofA);
    b.furthest(x, y, z, ofB);
    const [wx, wy, wz] = [
      (ofA[0] as number) - (ofB[0] as number),
      (ofA[1] as number) - (ofB[1] as number),
      (ofA[2] as number) - (ofB[2] as number),
    ];
    const along = (x * wx + y * wy + z * wz) / size;
    if (along > least) least = along;
    if (least - round >= enough || (!first && size - least <= APART_BOUND && least > 0)) return least - round;
    // A corner that is there already brings no news.
    let news = true;
    for (let i = 0; i < count; i++)
      if (points[3 * i] === wx && points[3 * i + 1] === wy && points[3 * i + 2] === wz) news = false;
    if (!news && !first) break;
    points[3 * count] = wx;
    points[3 * count + 1] = wy;
    points[3 * count + 2] = wz;
    count++;
    nearestOfSimplex(points, count, nearest);
    let kept = 0;
    for (let i = 0; i < count; i++) {
      if (((nearest.bits >> i) & 1) === 0) continue;
      points.copyWithin(3 * kept, 3 * i, 3 * i + 3);
      kept++;
    }
    count = kept;
    [x, y, z] = [nearest.at[0] as number, nearest.at[1] as number, nearest.at[2] as number];
    size = Math.sqrt(x * x + y * y + z * z);
    first = false;
    if (count === 4 || size < tolerance.samePoint) break;
  }
  return least > 0 ? least - round : Math.max(...partingWays(a, b).map((v) => apartAlong(a, b, v)));
}

/** Unit directions worth trying to part two bodies along: their faces', both ways, and from middle to middle. */
function partingWays(a: Body, b: Body): readonly Vector[] {
  const between = subtract(a.centre, b.centre);
  const ways: Vector[] = [...a.axes, ...b.axes].flatMap((v) => [v, scale(v, -1)]);
  for (const v of [between, ...[...a.axes, ...b.axes].map((axis) => squareTo(between, axis))])
    if (length3(v) > tolerance.samePoint) ways.push(direction(v));
  return ways.length > 0 ? ways : [[1, 0, 0]];
}

/**
 * Whether a body that is moved along a straight slides along another, or away from it: some direction parts
 * the two where they stand, but for `slack` mm, and the way does not lead back against it.
 */
export const leaves = (a: Body, b: Body, way: Vector, slack: number): boolean =>
  [...partingWays(a, b), way].some(
    (v) => dot3(v, way) >= -tolerance.sameDirection && apartAlong(a, b, v) >= -slack,
  );
