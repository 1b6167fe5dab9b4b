import type { Point } from '../../base/points.js';
import type { Bounds } from '../../geom/bounds.js';
import { boundsOf, distanceTo } from '../../geom/loops.js';
import type { Line, Segment } from '../../geom/segments.js';
import { boxGap, type BoxedEdge } from '../measure/contours.js';
import { gapBetween } from '../measure/gaps.js';
import type { Feature } from './features.js';

/** A number set beside its feature, in the part's own frame. */
export interface Label {
  readonly feature: Feature;
  readonly at: Point;
  /** A line from the number to the edge it means, where it had to go far. */
  readonly leader: readonly [Point, Point] | undefined;
}

/** Half width and half height of a number's box. */
export type HalfSize = (feature: Feature) => readonly [number, number];

/** Room left between a number and any line, mm. */
const AIR = 0.7;
/** A number farther than this from its feature gets a leader, mm. */
const NEAR = 5;
const REACH = 60;
const DIRECTIONS = 24;

/**
 * Finds a place for the number of every feature: inside it where there is room, else beside it, else farther
 * off with a leader, never over a line or another number. The upper right comes first, then round.
 * @param drawn every line already on the drawing
 * @param within how far out a number may go
 */
export function placeLabels(
  features: readonly Feature[],
  drawn: readonly BoxedEdge[],
  within: Bounds,
  halfSize: HalfSize,
): readonly Label[] {
  const taken: BoxedEdge[] = [...drawn];
  const stays = ([x, y]: Point, [w, h]: readonly [number, number]): boolean =>
    x - w > within.left && x + w < within.right && y - h > within.bottom && y + h < within.top;
  return features.map((feature) => {
    const half = halfSize(feature);
    const spot = firstOf(candidates(feature, half), ({ at, leader }) => {
      if (!stays(at, half) || (leader === undefined && !isNearest(feature, at, features))) return false;
      const frame = frameAbout(at, half);
      const free =
        frame.every((side) => isFree(side, taken)) && !taken.some((edge) => isWithin(edge, at, half));
      return free && (leader === undefined || leaderIsFree(leader, taken, feature));
    });
    const { at, leader } = spot ?? { at: feature.centre, leader: undefined };
    for (const side of frameAbout(at, half)) taken.push({ edge: side, box: boundsOf([side]) });
    if (leader)
      taken.push({ edge: { kind: 'line', from: leader[0], to: leader[1] }, box: boundsOf([lineOf(leader)]) });
    return { feature, at, leader };
  });
}

interface Spot {
  readonly at: Point;
  readonly leader: readonly [Point, Point] | undefined;
}

function* candidates(feature: Feature, half: readonly [number, number]): Generator<Spot> {
  const { left, right, bottom, top } = boundsOf(feature.loop);
  const [wide, high] = [(right - left) / 2, (top - bottom) / 2];
  const { centre } = feature;
  // Inside a cut opening there is nothing to hide; a pocket or a place to drill is no place for words.
  if (feature.kind === 'opening' || feature.kind === 'cut hole') {
    yield { at: centre, leader: undefined };
    for (const share of [0.35, 0.5, 0.65])
      for (let i = 0; i < 8; i++)
        yield { at: around(centre, wide * share, high * share, i / 8 + 1 / 16), leader: undefined };
  }
  for (let out = AIR; out < REACH; out += out < NEAR ? 0.8 : 2) {
    for (let i = 0; i < DIRECTIONS; i++) {
      const turn = 1 / 8 + i / DIRECTIONS;
      const at = around(centre, wide + out + half[0], high + out + half[1], turn);
      const leader = out < NEAR ? undefined : leaderTo(feature, at, half);
      yield { at, leader };
    }
  }
}

/** Whether a number without a leader would be taken for this feature's: no other one's edge is nearer. */
function isNearest(feature: Feature, at: Point, features: readonly Feature[]): boolean {
  const gap = (other: Feature): number => distanceTo(other.loop, at).distance;
  const own = gap(feature);
  return features.every((other) => other === feature || other.kind === 'pocket' || gap(other) > own + AIR);
}

/** The first that will do; the others are not even thought of. */
function firstOf<T>(all: Iterable<T>, good: (one: T) => boolean): T | undefined {
  for (const one of all) if (good(one)) return one;
  return undefined;
}

/** A point on an ellipse about a centre, counted in turns counter-clockwise from x. */
function around([x, y]: Point, wide: number, high: number, turns: number): Point {
  const angle = 2 * Math.PI * turns;
  return [x + wide * Math.cos(angle), y + high * Math.sin(angle)];
}

/** From the number's frame toward the feature's centre, ending on the feature's own edge. */
function leaderTo(
  { loop, centre }: Feature,
  at: Point,
  half: readonly [number, number],
): readonly [Point, Point] {
  const [x, y] = [centre[0] - at[0], centre[1] - at[1]];
  const long = Math.hypot(x, y);
  const clear = Math.min(half[0] / Math.abs(x / long), half[1] / Math.abs(y / long)) + 0.3;
  const { left, right, bottom, top } = boundsOf(loop);
  const inner = Math.min((right - left) / 2 / Math.abs(x / long), (top - bottom) / 2 / Math.abs(y / long));
  const toward = (far: number): Point => [at[0] + (x / long) * far, at[1] + (y / long) * far];
  return [toward(clear), toward(Math.max(clear, long - Math.min(inner, long)))];
}

const lineOf = ([from, to]: readonly [Point, Point]): Line => ({ kind: 'line', from, to });

function frameAbout([x, y]: Point, [w, h]: readonly [number, number]): readonly Line[] {
  const corners: readonly Point[] = [
    [x - w, y - h],
    [x + w, y - h],
    [x + w, y + h],
    [x - w, y + h],
  ];
  return corners.map((from, i) => ({ kind: 'line', from, to: corners[(i + 1) % 4] ?? from }));
}

function isFree(side: Segment, taken: readonly BoxedEdge[]): boolean {
  const box = boundsOf([side]);
  return taken.every((other) => boxGap(box, other.box) > AIR || gapBetween(side, other.edge) > AIR);
}

/** Whether an edge lies wholly inside a number's frame. */
const isWithin = ({ edge }: BoxedEdge, [x, y]: Point, [w, h]: readonly [number, number]): boolean =>
  Math.abs(edge.from[0] - x) < w && Math.abs(edge.from[1] - y) < h;

/** A leader may end on its own feature and crosses nothing else. */
function leaderIsFree(
  leader: readonly [Point, Point],
  taken: readonly BoxedEdge[],
  { loop }: Feature,
): boolean {
  const line = lineOf(leader);
  const box = boundsOf([line]);
  return taken.every(
    ({ edge, box: other }) => loop.includes(edge) || boxGap(box, other) > 0 || gapBetween(line, edge) > 0.2,
  );
}
