import type { Frame } from '../base/frames.js';
import { tolerance } from '../base/tolerance.js';
import type { Vector } from '../base/vectors.js';
import type { CentreLine } from '../geom/centre-line.js';
import type { TackFixtureSpec, Tube } from '../job/job.js';
import { standOf, tubeThrough, type CradleStand, type SeenTube } from './cradle-clashes.js';
import { halfHeld, HEAT_DISTANCE } from './cradle-heat.js';
import { cradleLimits, floorOf } from './cradle-limits.js';
import { cradlePart } from './cradle-part.js';
import { tryStation } from './cradle-place.js';
import type { CradlePart } from './parts.js';

/** What keeps a cradle from a station. */
export type Kept = 'heat' | 'joint' | 'steep' | 'low' | 'bed' | 'flange' | 'tube';

/** A place at which a cradle could stand, whatever the others do. */
export interface Candidate {
  readonly station: number;
  readonly part: CradlePart;
  readonly stand: CradleStand;
  /** The piece of the centre line that it holds. */
  readonly piece: number;
  /** What speaks against it, as so many mm less between two cradles. */
  readonly cost: number;
}

/** What one primary's cradles have to reckon with. */
export interface Surroundings {
  readonly primary: string;
  readonly line: CentreLine;
  readonly fixture: TackFixtureSpec;
  readonly tube: Tube;
  readonly base: Frame;
  /** Every tube of the header over the base plate, and points of its flanges. */
  readonly tubes: readonly SeenTube[];
  readonly flange: readonly Vector[];
  /** Stations of welds, those at both ends too. */
  readonly welds: readonly number[];
}

/** Where cradles could stand on a primary; and how many stations were lost to what, and by how much at the least. */
export interface Candidates {
  readonly all: readonly Candidate[];
  readonly lost: ReadonlyMap<Kept, { readonly count: number; readonly by: number }>;
  readonly tried: number;
}

/**
 * What speaks against a cradle, in mm of distance given up between two: a tall print (each mm of height half),
 * a bend (never quite round), a slope (each rad), a slender one. Weights of our own, no source.
 */
const AGAINST = { height: 0.5, bend: 40, slope: 60, slender: 500 } as const;
/** Kept between a foot and the flange, mm: room for a finger. */
const BESIDE_FLANGE = 3;

/** Tries every whole step along a primary. */
export function candidatesOn(around: Surroundings, step: number): Candidates {
  const all: Candidate[] = [];
  const lost = new Map<Kept, { count: number; by: number }>();
  let tried = 0;
  for (let station = step; station < around.line.length; station += step) {
    tried++;
    const found = candidateAt(around, station);
    if ('part' in found) all.push(found);
    else {
      const before = lost.get(found.kept);
      lost.set(found.kept, {
        count: (before?.count ?? 0) + 1,
        by: Math.min(before?.by ?? Infinity, found.by),
      });
    }
  }
  return { all, lost, tried };
}

/** The cradle at a station, or the first thing that keeps it from there and by how much (mm or rad). */
function candidateAt(
  around: Surroundings,
  station: number,
): Candidate | { readonly kept: Kept; readonly by: number } {
  const { line, fixture, tube, base, welds, primary } = around;
  const { cradle } = fixture;
  // The quick answer first: level, it covers the least of the tube.
  const tooNear = (half: number): number =>
    HEAT_DISTANCE + half - Math.min(...welds.map((weld) => Math.abs(station - weld)));
  if (tooNear(cradle.width / 2) > tolerance.samePoint) return { kept: 'heat', by: tooNear(cradle.width / 2) };
  const standing = tryStation(cradle, tube.od, base, line, station);
  if ('of' in standing)
    return standing.of === 'tilt'
      ? { kept: 'steep', by: Math.abs(standing.found) - cradleLimits.steepest }
      : { kept: 'joint', by: standing.needs - standing.room };
  const part = cradlePart(primary, 1, standing, fixture, tube);
  const stillNear = tooNear(halfHeld(part));
  if (stillNear > tolerance.samePoint) return { kept: 'heat', by: stillNear };
  const floor = floorOf(part, standing.span);
  if (floor < cradle.wall - tolerance.samePoint) return { kept: 'low', by: cradle.wall - floor };
  const high = standing.span.highest;
  if (high > fixture.printerBed[2]) return { kept: 'bed', by: high - fixture.printerBed[2] };
  const stand = standOf(part, standing.pose.at, standing.pose.azimuth);
  if (around.flange.some((at) => isUnder(at, stand, high))) return { kept: 'flange', by: 0 };
  for (const other of around.tubes) {
    const deep = tubeThrough({ part, stand }, other, high)?.deep;
    if (deep !== undefined) return { kept: 'tube', by: deep };
  }
  return { station, part, stand, piece: standing.pose.piece, cost: costOf(part) };
}

/** Whether a point of the flange stands over the foot, no higher than the cradle, or right beside it. */
function isUnder([x, y, z]: Vector, { at, turn, along, across }: CradleStand, high: number): boolean {
  if (z > high || z < -BESIDE_FLANGE) return false;
  const [dx, dy] = [x - at[0], y - at[1]];
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return (
    Math.abs(dx * c + dy * s) <= along / 2 + BESIDE_FLANGE &&
    Math.abs(dy * c - dx * s) <= across / 2 + BESIDE_FLANGE
  );
}

function costOf({ height, bend, tilt, width }: CradlePart): number {
  return (
    AGAINST.height * height +
    (bend === undefined ? 0 : AGAINST.bend) +
    AGAINST.slope * Math.abs(tilt) +
    (height > cradleLimits.slender * width ? AGAINST.slender : 0)
  );
}
