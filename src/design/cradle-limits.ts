import { clamp, cosSin, radians } from '../base/numbers.js';
import { tolerance } from '../base/tolerance.js';
import { add, cross3, direction, scale, squareTo, turnedAbout, type Vector } from '../base/vectors.js';
import type { CradlePart } from './parts.js';

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
  slender: 9,
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

const QUARTER = Math.PI / 2;

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
  return spanOnBend(shape, shape.bend, radius);
}

const STEPS_ALONG = 48;
const STEPS_ROUND = 48;

/**
 * Steps the tube's section along the bend both ways from the station, and notes every point of the saddle
 * until all of them have left the block; where one leaves, its crossing of the block's face is taken instead.
 */
function spanOnBend(
  { tilt, height, width, embrace }: SaddleShape,
  { clr, clock }: { readonly clr: number; readonly clock: number },
  radius: number,
): SaddleSpan {
  const half = width / 2;
  const pose = bendPose(tilt, clr, clock, height);
  let [reach, lowest, highest, sideways, steepest] = [0, Infinity, -Infinity, 0, 0];
  const step = width / STEPS_ALONG;
  const rounds = Array.from({ length: STEPS_ROUND + 1 }, (_, k) => cosSin(embrace * (k / STEPS_ROUND - 0.5)));
  for (const way of [1, -1]) {
    let before: readonly Vector[] = [];
    for (let i = 0; i * step < QUARTER * clr; i++) {
      const { at, along } = pose(way * i * step);
      const up = direction(squareTo([0, 0, 1], along));
      const left = cross3(up, along);
      let near = i === 0;
      const now = rounds.map(([c, s], k): Vector => {
        const point: Vector = [
          at[0] + radius * (s * left[0] - c * up[0]),
          at[1] + radius * (s * left[1] - c * up[1]),
          at[2] + radius * (s * left[2] - c * up[2]),
        ];
        const was = before[k] ?? point;
        const [farNow, farWas] = [Math.abs(point[0]), Math.abs(was[0])];
        // A leaning section may begin outside the block and come in, so only moving away ends the walk.
        if (farNow <= farWas || farWas <= half) near = true;
        if (farNow > half && (farWas > half || i === 0)) return point;
        const part = farNow > half ? (half - farWas) / (farNow - farWas) : 1;
        const [y, z] = [was[1] + (point[1] - was[1]) * part, was[2] + (point[2] - was[2]) * part];
        const used = Math.max(0, i - 1 + part) * step;
        const rise = part < 1 ? pose(way * used).along[2] : along[2];
        reach = Math.max(reach, used);
        lowest = Math.min(lowest, z);
        highest = Math.max(highest, z);
        sideways = Math.max(sideways, Math.abs(y));
        steepest = Math.max(steepest, Math.abs(Math.asin(clamp(rise, -1, 1))));
        return point;
      });
      if (!near) break;
      before = now;
    }
  }
  return { reach, lowest, highest, sideways, steepest };
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

/**
 * A strap's slot in its cradle: as high as leaves `wall` under the saddle, so that a short strap holds the tube
 * down however tall the cradle is; never lower than the foot's top.
 */
export const strapUnder = (
  strap: { readonly width: number; readonly depth: number } | undefined,
  foot: CradlePart['foot'],
  span: SaddleSpan,
  wall: number,
): CradlePart['strap'] =>
  strap && { ...strap, floor: Math.max(foot.thickness, span.lowest - wall - strap.depth) };

/** Plastic between the saddle's lowest point and the foot, or the strap's slot that runs under it, mm. */
export const floorOf = (part: CradlePart, span: SaddleSpan = saddleSpan(part)): number =>
  span.lowest - part.foot.thickness - (part.strap?.depth ?? 0);

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
  const floor = floorOf(part, span);
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
