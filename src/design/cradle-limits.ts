import { clamp, cosSin, radians } from '../base/numbers.js';
import { tolerance } from '../base/tolerance.js';
import { add, cross3, direction, scale, squareTo, turnedAbout, type Vector } from '../base/vectors.js';
import { type CradlePart } from './parts.js';

/** What a printed cradle can be. Common practice, no source. */
export const cradleLimits = {
  /** Steepest rise of the tube anywhere in the saddle, rad: beyond it the tube slides along, and the lips overhang. */
  steepest: radians(45),
  /** How far round the tube a saddle may reach, rad: less lets it roll out, more and it cannot be lifted out. */
  embrace: [radians(40), Math.PI],
  /** Plastic left each side of the strap's slot and round a screw hole, mm. */
  besideStrap: 2,
  besideHole: 2,
  /** Taller than this many widths, a cradle on one row of screws rocks along the tube. */
  slender: 6,
} as const;

/** What of a cradle shapes its saddle. */
export type SaddleShape = Pick<
  CradlePart,
  'od' | 'clearance' | 'height' | 'tilt' | 'bend' | 'width' | 'embrace'
>;

/** The room a saddle takes up: all mm but for the slope. */
export interface SaddleSpan {
  /** How much of the centre line it uses, each way from its station. */
  readonly reach: number;
  /** Its lowest point and its lips' highest, over the foot's underside. */
  readonly lowest: number;
  readonly highest: number;
  /** Its farthest to either side of the middle. */
  readonly sideways: number;
  /** Steepest rise of the tube in it, rad, never negative. */
  readonly steepest: number;
}

const BEND_STEPS = 64;

/**
 * The room that the saddle of a cradle takes: closed form on a straight, closely stepped on a bend
 * (within 0.05 mm over shop sizes, measured in tests/design/cradle-limits.test.ts).
 * With R the saddle's radius, a the tilt and w the width of a straight one:
 * lowest = height - R / cos a - (w / 2) tan a, reach = (w / 2 + R sin a) / cos a.
 */
export function saddleSpan(shape: SaddleShape): SaddleSpan {
  const { od, clearance, height, width, embrace } = shape;
  const radius = od / 2 + clearance;
  const half = width / 2;
  if (shape.bend === undefined) {
    const slope = Math.abs(shape.tilt);
    const [c, s] = cosSin(slope);
    return {
      reach: (half + radius * s) / c,
      lowest: height - radius / c - half * (s / c),
      highest: height + half * (s / c) - (radius * Math.cos(embrace / 2)) / c,
      sideways: radius * Math.sin(embrace / 2),
      steepest: slope,
    };
  }
  const pose = bendPose(shape.tilt, shape.bend.clr, shape.bend.clock, height);
  const span = { reach: 0, lowest: Infinity, highest: -Infinity, sideways: 0, steepest: 0 };
  // A step short enough that every column of the saddle crosses the block in a good many.
  const step = width / BEND_STEPS;
  const most = (Math.PI / 2) * shape.bend.clr;
  const take = (point: Vector, { along }: BendPose, used: number): void => {
    span.reach = Math.max(span.reach, used);
    span.lowest = Math.min(span.lowest, point[2]);
    span.highest = Math.max(span.highest, point[2]);
    span.sideways = Math.max(span.sideways, Math.abs(point[1]));
    span.steepest = Math.max(span.steepest, Math.abs(Math.asin(clamp(along[2], -1, 1))));
  };
  for (let i = 0; i <= BEND_STEPS; i++) {
    const round = embrace * (i / BEND_STEPS - 0.5);
    for (const way of [1, -1]) {
      let before = saddlePoint(pose(0), radius, round);
      if (Math.abs(before[0]) <= half) take(before, pose(0), 0);
      for (let s = step; s < most; s += step) {
        const here = pose(way * s);
        const now = saddlePoint(here, radius, round);
        const inside = Math.abs(now[0]) <= half;
        // The first column of a leaning circle may begin outside the block and come in.
        if (inside || Math.abs(before[0]) <= half) {
          const part = inside ? 1 : clamp((half - Math.abs(before[0])) / Math.abs(now[0] - before[0]), 0, 1);
          const edge = add(before, scale(add(now, scale(before, -1)), part));
          take(edge, here, s - step * (1 - part));
        } else if (Math.abs(now[0]) > Math.abs(before[0])) break;
        before = now;
      }
    }
  }
  return span;
}

interface BendPose {
  readonly at: Vector;
  readonly along: Vector;
}

/** The bend's centre line in the cradle's frame, by distance from the station. */
function bendPose(tilt: number, clr: number, clock: number, height: number): (s: number) => BendPose {
  const [c, s] = cosSin(tilt);
  const along: Vector = [c, 0, s];
  const toward = turnedAbout([-s, 0, c], along, clock);
  return (distance) => {
    const [ct, st] = cosSin(distance / clr);
    return {
      at: add([0, 0, height], add(scale(along, clr * st), scale(toward, clr * (1 - ct)))),
      along: add(scale(along, ct), scale(toward, st)),
    };
  };
}

/** A point of the saddle, `round` from straight below the tube's axis, rad. */
function saddlePoint({ at, along }: BendPose, radius: number, round: number): Vector {
  const up = direction(squareTo([0, 0, 1], along));
  const left = cross3(up, along);
  const [c, s] = cosSin(round);
  return add(at, add(scale(up, -radius * c), scale(left, radius * s)));
}

/** Room a cradle takes over all on the print bed, mm. */
export interface CradleBox {
  readonly along: number;
  readonly across: number;
  readonly high: number;
}

/** The box that holds a cradle as it prints, flat on its foot. */
export function cradleBox(part: CradlePart): CradleBox {
  return {
    along: part.width,
    across: 2 * (part.halfBreadth + part.foot.tab),
    high: saddleSpan(part).highest,
  };
}

/** One limit that a cradle breaks: lengths mm, angles rad. */
export interface CradleFault {
  readonly of: 'tilt' | 'embrace' | 'floor' | 'breadth' | 'strap' | 'foot';
  readonly found: number;
  readonly limit: number;
}

/** Plastic between the saddle's lowest point and the foot, or the strap's slot that runs under it, mm. */
export const floorOf = (part: CradlePart): number =>
  saddleSpan(part).lowest - part.foot.thickness - (part.strap?.depth ?? 0);

/**
 * Every limit that a cradle breaks; empty for one that can be made.
 * @param wall least plastic under and beside the saddle, mm
 */
export function cradleFaults(part: CradlePart, wall: number): readonly CradleFault[] {
  const { embrace, width, strap, foot } = part;
  const [least, most] = cradleLimits.embrace;
  const faults: CradleFault[] = [];
  const span = saddleSpan(part);
  // Sums of the user's own decimals must not fail by their last digit.
  const short = (found: number, limit: number): boolean => found < limit - tolerance.samePoint;
  if (short(cradleLimits.steepest, span.steepest))
    faults.push({ of: 'tilt', found: span.steepest, limit: cradleLimits.steepest });
  if (short(embrace, least)) faults.push({ of: 'embrace', found: embrace, limit: least });
  if (short(most, embrace)) faults.push({ of: 'embrace', found: embrace, limit: most });
  const floor = floorOf(part);
  if (short(floor, wall)) faults.push({ of: 'floor', found: floor, limit: wall });
  if (short(part.halfBreadth, span.sideways + wall))
    faults.push({ of: 'breadth', found: part.halfBreadth, limit: span.sideways + wall });
  const widest = width - 2 * cradleLimits.besideStrap;
  if (strap !== undefined && short(widest, strap.width))
    faults.push({ of: 'strap', found: strap.width, limit: widest });
  const room = Math.min(foot.tab, width) - 2 * cradleLimits.besideHole;
  if (foot.tab > 0 && short(room, foot.hole)) faults.push({ of: 'foot', found: foot.hole, limit: room });
  return faults;
}
