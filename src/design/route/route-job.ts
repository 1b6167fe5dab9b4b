import type { Rack } from '../../job/rack.js';
import { blockageOf, type Blockage } from './blockers.js';
import { obstaclesOf } from './certificates.js';
import { nearestThings, type NearestThing } from './nearest.js';
import { COLLECTOR } from './obstacles.js';
import { paceOf, type Pace } from './pace.js';
import type { RouteProblem } from './problem.js';
import { clockingPoses, movedPoses } from './poses.js';
import { routeRecord, type RouteRecord } from './record.js';
import { setProblem, type CollectorPose, type RoutableJob } from './set-problem.js';
import { snap, type Rounding } from './snap.js';
import { quickSearch, solve, type RouteOptions, type Solved } from './solve.js';
import { leastWeldsOf } from './weld-bound.js';
import { whatWouldFree, type WouldFree } from './what-would-free.js';

/** What came of routing a job. */
export interface RouteResult extends Omit<Solved, 'answer'> {
  readonly record: RouteRecord | undefined;
  /** Welds of all primaries, the collector's not counted, from the rack. */
  readonly welds: number | undefined;
  /** Welds of each primary, by port. */
  readonly weldsEach: readonly number[];
  /** What each primary comes nearest to. */
  readonly nearest: readonly NearestThing[];
  /** How short each primary could be by itself; empty where nothing was found or it was not asked for. */
  readonly pace: readonly Pace[];
  /** What rounding to half degrees and half millimetres came to; undefined where the job's spread is too small. */
  readonly rounding: Rounding | undefined;
  /** Obstacles of which leaving out any one gave an answer to a quick search, where nothing was found. */
  readonly routedWithout: readonly string[];
  /** The smallest changes tried with which routes were found, where there are none as the job is. */
  readonly wouldFree: readonly WouldFree[];
}

/**
 * Routes a job: finds one centre line a primary, all of one length, clear of everything, with the fewest
 * welds it can find; of those the shortest, and then the roomiest. Pure: no clock, no disk; the work is
 * bounded by counts, so results repeat.
 * @param job with ports, tube, primaries, collector and length
 * @throws HeadNotCleared where a port's axis stays in its own head; RangeError where a field is missing
 */
export function routeJob(job: RoutableJob, rack: Rack, options: RouteOptions): RouteResult {
  const turns = clockingPoses(job.collector, job.ports.length);
  const [first, ...others] = turns;
  const mayMove = first !== undefined && movedPoses(job.collector, first).length > 0;
  if (first === undefined || (others.length === 0 && !mayMove))
    return advised(
      routeProblem(setProblem(job, rack, options.fieldOf), job.name, options),
      job,
      rack,
      options,
    );
  return advised(routeOverPoses(job, rack, turns, options), job, rack, options, first);
}

/** How many of the worst blockers are changed, one at a time, to see whether that would do. */
const MOST_CHANGED = 3;

/** A result with what would free it, where nothing was found. */
function advised(
  result: RouteResult,
  job: RoutableJob,
  rack: Rack,
  options: RouteOptions,
  pose?: CollectorPose,
): RouteResult {
  const { seed, fieldOf, onProgress, stop = (): boolean => false } = options;
  if (result.outcome === 'routed' || result.endedEarly || options.explain === false) return result;
  const names = [...new Set(result.proofs.flatMap(obstaclesOf))];
  const blockage = (): Blockage => result.blockage ?? blockageOf(setProblem(job, rack, fieldOf, pose), seed);
  const blockers = result.proofs.length > 0 ? names : blockage().blockers.map(({ name }) => name);
  const progress = (stage: number, stages: number): void => onProgress?.({ stage, stages, freeing: true });
  const rules = { seed, blockers: blockers.slice(0, MOST_CHANGED), pose, fieldOf, stop, progress };
  return { ...result, ...whatWouldFree(job, rack, rules) };
}

/**
 * Routes a job whose collector may turn or move: a quick search at every clocking, another at every pose that
 * the best of them may be moved to, then the search asked for at the best of all. A proof at one pose says
 * nothing of the others, so here nothing is proved impossible but a stub that is blocked.
 */
function routeOverPoses(
  job: RoutableJob,
  rack: Rack,
  turns: readonly CollectorPose[],
  options: RouteOptions,
): RouteResult {
  const { effort = 'default' } = options;
  const stop = options.stop ?? ((): boolean => false);
  const quickAt = (poses: readonly CollectorPose[]): readonly Tried[] => {
    const made = options.team?.run(poses.map((pose) => ({ kind: 'quick search', pose })));
    return poses.flatMap((pose, n) => {
      // The first is looked at even where all is stopped at once: then it says so.
      if (made?.[n] === undefined && n > 0 && stop()) return [];
      const problem = setProblem(job, rack, options.fieldOf, pose);
      const found = made?.[n] ?? quickSearch(problem, options);
      return [{ pose, problem, found: found as Solved }];
    });
  };
  const looked = [...quickAt(turns)];
  const turned = bestOf(looked);
  if (!stop()) looked.push(...quickAt(movedPoses(job.collector, turned.pose)));
  const best = bestOf(looked);
  const again = effort === 'quick' ? undefined : solve(best.problem, options, best.pose);
  const last = again === undefined ? best : bestOf([best, { ...best, found: again }]);
  // The collector itself stands elsewhere in poses between those looked at.
  const blocked = looked.every(({ found }) =>
    found.proofs.some((proof) => proof.kind === 'stub blocked' && proof.obstacle !== COLLECTOR),
  );
  const result = finish(last.problem, job.name, options, last.found);
  return {
    ...result,
    outcome: result.outcome === 'proved impossible' && !blocked ? 'not found' : result.outcome,
    proofs: blocked ? result.proofs : [],
    bound: blocked ? Infinity : job.ports.length * leastWeldsOf(best.problem)(0),
    endedEarly: [...looked, last].some(({ found }) => found.endedEarly),
    nodes: [...looked, last].reduce((sum, { found }) => sum + found.nodes, 0),
  };
}

/** What came of one pose. */
interface Tried {
  readonly pose: CollectorPose;
  readonly problem: RouteProblem;
  readonly found: Solved;
}

/** Fewest welds, then the shortest; the first of equals. */
function bestOf(tried: readonly Tried[]): Tried {
  const [first, ...rest] = tried;
  if (first === undefined) throw new RangeError('no pose was tried');
  const lengthOf = ({ found }: Tried): number => found.answer?.length ?? Infinity;
  return rest.reduce((best, each) => {
    const [a, b] = [best.found.answer?.welds ?? Infinity, each.found.answer?.welds ?? Infinity];
    return b < a || (b === a && lengthOf(each) < lengthOf(best) - 0.01) ? each : best;
  }, first);
}

/** Routes a problem that is already set. */
const routeProblem = (problem: RouteProblem, name: string, options: RouteOptions): RouteResult =>
  finish(problem, name, options, solve(problem, options));

/** Rounds the answer where the job leaves room for that, and writes it down. */
function finish(
  problem: RouteProblem,
  name: string,
  { seed, jobHash, explain }: RouteOptions,
  { answer: exact, ...found }: Solved,
): RouteResult {
  const told = { ...found, routedWithout: [], wouldFree: [] };
  if (exact === undefined)
    return {
      ...told,
      record: undefined,
      welds: undefined,
      weldsEach: [],
      nearest: [],
      pace: [],
      rounding: undefined,
    };
  const { answer, rounding } = snap(problem, exact, seed) ?? { answer: exact, rounding: undefined };
  return {
    ...told,
    record: routeRecord(problem, answer.routes, { job: name, jobHash, seed }),
    welds: answer.welds,
    weldsEach: answer.routes.map((route) => route.welds),
    nearest: nearestThings(problem, answer.routes),
    pace: explain === false || found.endedEarly ? [] : paceOf(problem, exact.routes, seed),
    rounding,
  };
}
