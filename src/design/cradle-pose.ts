import { bench, directionSeenFrom, seenFrom, type Frame } from '../base/frames.js';
import { clamp, turnOf } from '../base/numbers.js';
import type { Point } from '../base/points.js';
import { cross3, dot3, length3, scale, squareTo, turnedAbout, type Vector } from '../base/vectors.js';
import type { CentreLine } from '../geom/centre-line.js';
import { clockingZero } from '../geom/clocking-zero.js';
import type { TackFixtureSpec } from '../job/job.js';

/** How the tube stands over the base plate at a station. */
export interface CradlePose {
  /** Under the centre line, on the base plate's drawing. */
  readonly at: Point;
  /** Of the centre line over the base. */
  readonly height: number;
  /** Rise of the flow above the base, rad. */
  readonly tilt: number;
  /** Of the flow, seen from above, counter-clockwise from the base's x, rad. */
  readonly azimuth: number;
  /** As CradlePart has it: the turning direction about the flow, from up made square to the flow. */
  readonly bend: { readonly clr: number; readonly clock: number } | undefined;
  /** Of the centre line's pieces, the one it stands on. */
  readonly piece: number;
}

/**
 * The base plate's own frame, seen from above (the side the tubes are on): x along `right`, as far as the
 * plate allows (`up` where the plate faces right or left). With the plate under the header, the head is at
 * the top of the drawing.
 */
export function baseFrame({ at, normal }: TackFixtureSpec['base']): Frame {
  const x = clockingZero(normal, bench.right, bench.up);
  return { origin: at, right: x, up: cross3(normal, x), out: normal };
}

/** The tube's pose over the base at a station of its centre line (mm from the start, on the line). */
export function poseOverBase(base: Frame, line: CentreLine, station: number): CradlePose {
  const pose = line.poseAt(station);
  const [x, y, height] = seenFrom(base, pose.at);
  const flow = directionSeenFrom(base, pose.direction);
  const tilt = Math.asin(clamp(flow[2], -1, 1));
  const azimuth = Math.atan2(flow[1], flow[0]);
  const piece = line.pieces[pose.piece];
  const bend =
    piece?.kind === 'bend' && pose.turnToward !== undefined
      ? { clr: piece.clr, clock: clockFrom(flow, azimuth, directionSeenFrom(base, pose.turnToward)) }
      : undefined;
  return { at: [x, y], height, tilt, azimuth, bend, piece: pose.piece };
}

/** Right hand about the flow, from up made square to it, to the turning direction. */
function clockFrom(flow: Vector, azimuth: number, toward: Vector): number {
  const level = length3(squareTo([0, 0, 1], flow));
  // A tube that stands straight up has no up square to it; its azimuth still says which way x lies.
  const left: Vector = turnedAbout([0, 1, 0], [0, 0, 1], azimuth);
  const up = level > 0 ? scale(squareTo([0, 0, 1], flow), 1 / level) : cross3(flow, left);
  return turnOf(Math.atan2(dot3(cross3(up, toward), flow), dot3(up, toward)));
}
