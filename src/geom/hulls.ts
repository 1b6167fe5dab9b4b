import { cosSin, tidy, turnOf } from '../base/numbers.js';
import { cross, distance, dot, minus, plus, size, times, unit, type Point } from '../base/points.js';
import { tolerance } from '../base/tolerance.js';
import { arcBetween, joinedUp, line } from './arcs.js';
import { circleLoop } from './loops.js';
import type { Loop, Segment } from './segments.js';

/** A round pad: a place and a radius, mm. */
export interface Disc {
  readonly at: Point;
  readonly radius: number;
}

/** The bar of one width with round ends that joins two points (mm). */
export const stadium = (from: Point, to: Point, radius: number): Loop =>
  hullOfDiscs([
    { at: from, radius },
    { at: to, radius },
  ]);

/**
 * The tight belt round a set of discs: arcs on the outermost of them, tangent lines between (mm),
 * counter-clockwise. One disc, or one that holds all the others, gives its circle.
 * Walks the direction of the outward normal round once; the next disc is the one whose reach
 * c . u + r overtakes first.
 * @throws Error for no discs
 */
export function hullOfDiscs(discs: readonly Disc[]): Loop {
  const start = -Math.PI / 2;
  const full = start + 2 * Math.PI + tolerance.sameDirection;
  let here = lowest(discs);
  let angle = start;
  const turns: Turn[] = [];
  for (let guard = 0; guard <= 2 * discs.length + 2; guard++) {
    const step = overtaking(here, discs, angle);
    if (!step || angle + step.after > full) break;
    angle += step.after;
    turns.push({ disc: here, until: angle, next: step.disc });
    here = step.disc;
  }
  return turns.length === 0 ? circleLoop(here.at, here.radius) : beltOf(turns);
}

/** A disc of the belt, the outward normal's angle where the belt leaves it, and the disc it goes to. */
interface Turn {
  readonly disc: Disc;
  readonly until: number;
  readonly next: Disc;
}

/** The disc that reaches lowest, the rightmost of several: ahead of all others just after the start. */
function lowest(discs: readonly Disc[]): Disc {
  let [best] = discs;
  if (!best) throw new Error('no discs to put a belt round');
  for (const disc of discs) {
    const lower = best.at[1] - best.radius - (disc.at[1] - disc.radius);
    const level = Math.abs(lower) <= tolerance.samePoint;
    const wider = disc.at[0] === best.at[0] && disc.radius > best.radius;
    if (level ? disc.at[0] > best.at[0] || wider : lower > 0) best = disc;
  }
  return best;
}

/** Which disc overtakes the present one next as the normal turns on, and after what turn. */
function overtaking(
  here: Disc,
  discs: readonly Disc[],
  angle: number,
): { readonly disc: Disc; readonly after: number } | undefined {
  let best: { disc: Disc; after: number; far: number } | undefined;
  for (const disc of discs) {
    const way = minus(disc.at, here.at);
    const far = size(way);
    const drop = here.radius - disc.radius;
    if (far <= Math.abs(drop) + tolerance.samePoint) continue;
    // c . u grows past the difference of the radii at this angle.
    const turn = turnOf(Math.atan2(way[1], way[0]) - Math.acos(drop / far) - angle);
    const after = turn > 2 * Math.PI - tolerance.sameDirection ? 0 : turn;
    if (!best || after < best.after - tolerance.sameDirection) best = { disc, after, far };
    else if (after <= best.after + tolerance.sameDirection && far > best.far) best = { disc, after, far };
  }
  return best;
}

function beltOf(
  turns: readonly { readonly disc: Disc; readonly until: number; readonly next: Disc }[],
): Loop {
  const pieces: Segment[] = [];
  turns.forEach((turn, i) => {
    const before = turns[(i + turns.length - 1) % turns.length] ?? turn;
    const sweep = i === 0 ? turn.until - before.until + 2 * Math.PI : turn.until - before.until;
    const at = (disc: Disc, angle: number): Point => plus(disc.at, times(cosSin(angle), disc.radius));
    const { disc } = turn;
    const leave = at(disc, turn.until);
    if (disc.radius > tolerance.samePoint) {
      pieces.push(arcBetween(at(disc, before.until), leave, disc.at, disc.radius, sweep));
    }
    pieces.push(line(leave, at(turn.next, turn.until)));
  });
  return pieces;
}

/**
 * A polygon with its corners rounded (mm): counter-clockwise corners, one radius for all or one each.
 * A radius of 0 leaves a corner sharp. Concave corners are rounded the other way.
 * @throws Error where two roundings want more of a side than it has
 */
export function roundedPolygon(corners: readonly Point[], radius: number | readonly number[]): Loop {
  const cuts = corners.map((corner, i) => {
    const before = corners[(i + corners.length - 1) % corners.length] ?? corner;
    const after = corners[(i + 1) % corners.length] ?? corner;
    const arriving = unit(minus(corner, before));
    const leaving = unit(minus(after, corner));
    const turn = Math.atan2(cross(arriving, leaving), dot(arriving, leaving));
    const r = typeof radius === 'number' ? radius : (radius[i] ?? 0);
    const back = r * Math.tan(Math.abs(turn) / 2);
    return { corner, arriving, leaving, turn, r, back, side: distance(corner, after) };
  });
  const pieces: Segment[] = [];
  cuts.forEach((cut, i) => {
    const next = cuts[(i + 1) % cuts.length] ?? cut;
    const from = minus(cut.corner, times(cut.arriving, cut.back));
    const to = plus(cut.corner, times(cut.leaving, cut.back));
    if (cut.back > tolerance.samePoint) {
      const inward = Math.sign(cut.turn) * cut.r;
      const centre: Point = [from[0] - cut.arriving[1] * inward, from[1] + cut.arriving[0] * inward];
      pieces.push(arcBetween(from, to, centre, cut.r, cut.turn));
    }
    const spare = cut.side - cut.back - next.back;
    if (spare < -tolerance.samePoint) {
      throw new Error(
        `side ${String(i + 1)} is ${tidy(-spare)} mm too short for the roundings of its corners`,
      );
    }
    if (spare > tolerance.samePoint)
      pieces.push(line(to, minus(next.corner, times(next.arriving, next.back))));
  });
  return joinedUp(pieces);
}
