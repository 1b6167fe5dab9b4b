import { seenFrom, type Frame } from '../base/frames.js';
import { tidy, turnOf } from '../base/numbers.js';
import { dot, minus, turned, type Point } from '../base/points.js';
import type { Problem } from '../base/problems.js';
import type { Vector } from '../base/vectors.js';
import { cradleBox } from './cradle-limits.js';
import type { CradlePart } from './parts.js';
import type { CentreLines } from './routes-by-hand.js';

/** A cradle's foot on the base plate's drawing: its middle, how it is turned, and its size. */
export interface CradleStand {
  readonly name: string;
  readonly primary: string;
  readonly station: number;
  /** Under the tube's centre line, mm on the base plate's drawing. */
  readonly at: Point;
  /** Of the cradle's x (along the flow), counter-clockwise from the drawing's x, rad in [0, 2 pi). */
  readonly turn: number;
  /** Size of the foot along and across the tube, mm. */
  readonly along: number;
  readonly across: number;
}

/** Puts a cradle's foot down on the base plate. */
export function standOf(part: CradlePart, at: Point, azimuth: number): CradleStand {
  const { name, primary, station } = part;
  const across = 2 * (part.halfBreadth + part.foot.tab);
  return { name, primary, station, at, turn: turnOf(azimuth), along: part.width, across };
}

/** How deep two feet overlap, mm: the least shift that parts them; 0 or less where they lie apart. */
export function footOverlap(a: CradleStand, b: CradleStand): number {
  const apart = minus(b.at, a.at);
  let least = Infinity;
  for (const axis of [...axesOf(a), ...axesOf(b)])
    least = Math.min(least, halfAlong(a, axis) + halfAlong(b, axis) - Math.abs(dot(apart, axis)));
  return least;
}

const axesOf = ({ turn }: CradleStand): readonly [Point, Point] => [
  turned([1, 0], turn),
  turned([0, 1], turn),
];

/** Half the foot's extent along a direction. */
function halfAlong(stand: CradleStand, axis: Point): number {
  const [x, y] = axesOf(stand);
  return (stand.along * Math.abs(dot(x, axis)) + stand.across * Math.abs(dot(y, axis))) / 2;
}

/** Says which feet overlap, and which tubes run through the block of a cradle that holds another. */
export function clashProblems(
  cradles: readonly { readonly part: CradlePart; readonly stand: CradleStand; readonly path: string }[],
  base: Frame,
  lines: CentreLines,
): readonly Problem[] {
  const problems: Problem[] = [];
  const tubes = seenTubes(base, lines);
  cradles.forEach((a, i) => {
    for (const b of cradles.slice(i + 1)) {
      const overlap = footOverlap(a.stand, b.stand);
      if (overlap <= 0) continue;
      problems.push({
        code: 'cradle/feet-clash',
        severity: 'warning',
        what: `the feet of ${a.part.name} and ${b.part.name} overlap by ${tidy(overlap, 1)} mm on the base plate`,
        why: 'one of the two cannot be screwed down',
        fix: `move one of them ${tidy(Math.ceil(overlap), 0)} mm or more along its tube, or take shorter tabs`,
        place: { path: b.path },
      });
    }
    for (const tube of tubes) {
      const { id } = tube;
      const found = tubeThrough(a, tube);
      if (found === undefined) continue;
      problems.push({
        code: 'cradle/tube-clash',
        severity: 'warning',
        what: `${id} at station ${tidy(found.station, 0)} runs ${tidy(found.deep, 1)} mm deep into the block of ${a.part.name}`,
        why: 'the tube and the cradle cannot both be in the fixture',
        fix: `move the cradle along ${a.part.primary}, at least ${tidy(Math.ceil(found.deep), 0)} mm, or hold that tube elsewhere`,
        place: { path: a.path },
      });
    }
  });
  return problems;
}

/** Stepped so finely that a tube cannot pass between two looks. */
const LOOK = 2;

/** A tube as it is looked at: points of its centre line over the base plate, by station. */
export interface SeenTube {
  readonly id: string;
  readonly points: readonly { readonly station: number; readonly at: Vector }[];
}

/** Every tube, looked at closely. */
export const seenTubes = (base: Frame, lines: CentreLines): readonly SeenTube[] =>
  [...lines].map(([id, line]) => ({
    id,
    points: Array.from({ length: Math.floor(line.length / LOOK) + 1 }, (_, i) => {
      const station = i * LOOK;
      return { station, at: seenFrom(base, line.poseAt(station).at) };
    }),
  }));

/**
 * Where a tube runs deepest into a cradle's block; undefined where it passes clear.
 * @param high how high the block stands, mm, where that is known already
 */
export function tubeThrough(
  { part, stand }: { readonly part: CradlePart; readonly stand: CradleStand },
  { id, points }: SeenTube,
  high = cradleBox(part).high,
): { readonly station: number; readonly deep: number } | undefined {
  let worst: { station: number; deep: number } | undefined;
  // The tube it holds leaves the block on both sides; only where it comes back is it in the way.
  const own = part.primary === id ? part.width / 2 + part.od : 0;
  const far = Math.hypot(part.width / 2, part.halfBreadth) + part.od / 2;
  for (const { station, at } of points) {
    if (Math.abs(station - part.station) < own) continue;
    const [x, y, z] = at;
    const apart: Point = [x - stand.at[0], y - stand.at[1]];
    if (Math.abs(apart[0]) > far || Math.abs(apart[1]) > far) continue;
    const [along, across] = turned(apart, -stand.turn);
    const out = Math.hypot(
      Math.max(0, Math.abs(along) - part.width / 2),
      Math.max(0, Math.abs(across) - part.halfBreadth),
      Math.max(0, z - high, -z),
    );
    const deep = part.od / 2 - out;
    if (deep > 0 && deep > (worst?.deep ?? 0)) worst = { station, deep };
  }
  return worst;
}
