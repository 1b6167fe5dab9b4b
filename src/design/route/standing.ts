import { degrees, tidy } from '../../base/numbers.js';
import { tolerance } from '../../base/tolerance.js';
import { missOf, type CentreLine } from '../../geom/centre-line.js';
import { packCentreLine } from '../../geom/packed-line.js';
import type { Rack } from '../../job/rack.js';
import type { CentreLines } from '../routes-by-hand.js';
import { nearestThings, type NearestThing } from './nearest.js';
import type { FieldOf } from './obstacles.js';
import { builtLengthOf, type RouteLimits } from './problem.js';
import { setProblem, type RoutableJob, type RoutedJob } from './set-problem.js';

/** How one primary stands among what surrounds it. Lengths mm. */
export interface PrimaryStanding {
  readonly id: string;
  /** The slot it ends nearest to. */
  readonly slot: string;
  readonly bends: number;
  readonly length: number;
  /** The straight before the collector. */
  readonly lastStraight: number;
  readonly nearest: NearestThing;
  /** Limits of the job that its rows break, in words with found value and limit. */
  readonly broken: readonly string[];
}

/** A rack that holds nothing: distances do not depend on it, and what can be cut from it the piece plan says. */
const noRack = (tube: Rack['tube']): Rack => ({
  file: undefined,
  unit: 'mm',
  tube,
  saw: { kerf: 2, dress: 0.5, rawTrim: 3 },
  bends: [],
  straights: [],
  defaults: [],
  guesses: [],
});

/** Whether a job says enough for its primaries' surroundings to be judged. */
const isJudgeable = (
  job: RoutedJob,
): job is RoutedJob & Pick<RoutableJob, 'tube' | 'primaries' | 'collector'> =>
  job.tube !== undefined && job.primaries !== undefined && job.collector !== undefined;

/** Marches that find less than this to spare (mm) are done again, finer. */
const CLOSE = 0.1;
const FINE = 0.001;

/**
 * How the primaries of a job stand, measured anew on the centre lines given: the same marches and the same
 * rules (waivers, sleeves, wrench spaces) that the search proves its answers with.
 * @param job its collector as the routes have it
 * @returns by port; empty where the job lacks tube, primaries or collector, or no primary has a line
 * @throws HeadNotCleared where a port's axis stays in its own head
 */
export function standingOf(
  job: RoutedJob,
  lines: CentreLines,
  fieldOf?: FieldOf,
): readonly PrimaryStanding[] {
  if (!isJudgeable(job) || lines.size === 0) return [];
  const longest = Math.max(...[...lines.values()].map(({ length }) => length));
  const length = { from: 0, to: longest, spread: job.length?.spread ?? 0 };
  const bare: RoutableJob = { ...job, length, primaries: { ...job.primaries, byHand: {} } };
  const problem = setProblem(bare, noRack(job.tube), fieldOf);
  const routes = job.ports.flatMap(({ id }, start) => {
    const line = lines.get(id);
    if (line === undefined) return [];
    const far = problem.slots.map((slot) => missOf(line.end, slot).distance);
    const clrs = line.pieces.flatMap((piece) => (piece.kind === 'bend' ? [piece.clr] : []));
    return [
      { id, start, slot: far.indexOf(Math.min(...far)), clrs, line: packCentreLine(line), marched: line },
    ];
  });
  const coarse = nearestThings(problem, routes);
  const nearest = coarse.some(({ spare }) => spare < CLOSE) ? nearestThings(problem, routes, FINE) : coarse;
  return routes.map(({ id, start, slot, clrs, marched }, i): PrimaryStanding => {
    const last = marched.pieces.at(-1);
    return {
      id,
      slot: problem.slots[slot]?.id ?? '',
      bends: clrs.length,
      length: builtLengthOf(problem, start) + marched.length,
      lastStraight: last?.length ?? 0,
      nearest: nearest[i] as NearestThing,
      broken: brokenLimits(marched, problem.limits, problem.starts[start]?.stub ?? 0),
    };
  });
}

/** Limits that a centre line breaks by more than a file's rounding. */
function brokenLimits({ pieces }: CentreLine, limits: RouteLimits, stub: number): string[] {
  return pieces.flatMap((piece, i) => {
    const row = `row ${i + 1}`;
    if (piece.kind === 'straight') {
      const [least, key] =
        i === 0
          ? [stub, 'stub']
          : i === pieces.length - 1
            ? [limits.lastStraight, 'last_straight']
            : [limits.between, 'between'];
      if (piece.length >= least - tolerance.file) return [];
      return [`${row} is a straight of ${tidy(piece.length, 2)} mm (primaries.${key}: ${tidy(least, 2)})`];
    }
    const angle = degrees(piece.angle);
    const [least, most] = [degrees(limits.leastAngle), degrees(limits.largestAngle)];
    if (angle >= least - tolerance.file && angle <= most + tolerance.file) return [];
    const key = angle < least ? `least_angle: ${tidy(least, 2)}` : `largest_angle: ${tidy(most, 2)}`;
    return [`${row} bends ${tidy(angle, 2)} deg (primaries.${key})`];
  });
}
