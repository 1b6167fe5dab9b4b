import type { Rack } from '../../job/rack.js';
import type { Answer } from './answer.js';
import { blockageOf, withoutObstacles, type Blockage } from './blockers.js';
import { certificatesOf, type Certificate } from './certificates.js';
import { lift } from './lift.js';
import { nearestThings, type NearestThing } from './nearest.js';
import { proveBound } from './prove-bound.js';
import type { PairProof } from './prove-pairs.js';
import type { FieldOf } from './obstacles.js';
import type { RouteProblem } from './problem.js';
import { clockingPoses, movedPoses } from './poses.js';
import { routeRecord, type RouteRecord } from './record.js';
import { search, type Watch } from './search.js';
import { setProblem, type CollectorPose, type RoutableJob } from './set-problem.js';
import { shorten } from './shorten.js';
import { stages } from './stages.js';
import { leastWeldsOf, type WeldBound } from './weld-bound.js';

/** How hard to search: how many of the stages of growing effort are run, and how hard the bound is proved. */
export type Effort = 'quick' | 'default' | 'thorough';

const effortOf: Readonly<Record<Effort, { readonly stages: number; readonly pairs?: PairProof }>> = {
  quick: { stages: 2 },
  default: { stages: 4, pairs: { half: 2, clashes: 2_000_000 } },
  thorough: { stages: stages.length, pairs: { half: 1, clashes: 20_000_000 } },
};

/** How a job is to be routed. */
export interface RouteOptions {
  /** Same job, same seed: the same answer, on any machine. */
  readonly seed: number;
  readonly effort?: Effort;
  /** Written into the record. */
  readonly jobHash?: string;
  /** Distances to keep-outs that are files. */
  readonly fieldOf?: FieldOf;
  /** False leaves out why nothing was found, which costs a few quick searches. */
  readonly explain?: boolean;
  readonly onProgress?: Watch['progress'];
  /** Asked now and then; true ends the search with the best so far, and the result says so. */
  readonly stop?: () => boolean;
}

/** What came of routing a job. */
export interface RouteResult {
  /** `not found` and `proved impossible` are different things: only the latter is certain. */
  readonly outcome: 'routed' | 'proved impossible' | 'not found';
  readonly record: RouteRecord | undefined;
  /** Welds of all primaries, the collector's not counted, from the rack. */
  readonly welds: number | undefined;
  /** No answer has fewer welds: proved. */
  readonly bound: number;
  /** What each primary comes nearest to. */
  readonly nearest: readonly NearestThing[];
  /** Proofs that there is no answer; empty unless proved impossible. */
  readonly proofs: readonly Certificate[];
  /** What stands in the way, where nothing was found; undefined otherwise. */
  readonly blockage: Blockage | undefined;
  /** Obstacles of which leaving out any one gave an answer to a quick search, where nothing was found. */
  readonly routedWithout: readonly string[];
  /** True where `stop` ended it early. */
  readonly endedEarly: boolean;
  readonly nodes: number;
}

/** Work spent on shortening and on lifting the least clearance, in tries. */
const SHORTEN_TRIES = 500;

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
    return routeProblem(setProblem(job, rack, options.fieldOf), job.name, options);
  return routeOverPoses(job, rack, turns, options);
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
  const quickAt = (pose: CollectorPose): Tried => {
    const problem = setProblem(job, rack, options.fieldOf, pose);
    const quiet = { ...options, onProgress: (): void => undefined, effort: 'quick', explain: false } as const;
    return { pose, problem, result: routeProblem(problem, job.name, quiet) };
  };
  const looked: Tried[] = [];
  for (const pose of turns) if (looked.length === 0 || !stop()) looked.push(quickAt(pose));
  const turned = bestOf(looked);
  for (const pose of movedPoses(job.collector, turned.pose)) if (!stop()) looked.push(quickAt(pose));
  const best = bestOf(looked);
  const again = effort === 'quick' ? undefined : routeProblem(best.problem, job.name, options);
  const last = again === undefined ? best : bestOf([best, { ...best, result: again }]);
  const blocked = looked.every(({ result }) => result.proofs.some(({ kind }) => kind === 'stub blocked'));
  const { result } = last;
  return {
    ...result,
    outcome: result.outcome === 'proved impossible' && !blocked ? 'not found' : result.outcome,
    proofs: blocked ? result.proofs : [],
    bound: blocked ? Infinity : job.ports.length * leastWeldsOf(best.problem)(0),
    endedEarly: [...looked, last].some((each) => each.result.endedEarly),
    nodes: [...looked, last].reduce((sum, each) => sum + each.result.nodes, 0),
  };
}

/** What came of one pose. */
interface Tried {
  readonly pose: CollectorPose;
  readonly problem: RouteProblem;
  readonly result: RouteResult;
}

/** Fewest welds, then the shortest; the first of equals. */
function bestOf(tried: readonly Tried[]): Tried {
  const [first, ...rest] = tried;
  if (first === undefined) throw new RangeError('no pose was tried');
  const lengthOf = ({ result }: Tried): number => result.record?.length ?? Infinity;
  return rest.reduce((best, each) => {
    const [a, b] = [best.result.welds ?? Infinity, each.result.welds ?? Infinity];
    return b < a || (b === a && lengthOf(each) < lengthOf(best) - 0.01) ? each : best;
  }, first);
}

/** Routes a problem that is already set. */
export function routeProblem(problem: RouteProblem, name: string, options: RouteOptions): RouteResult {
  const { seed, effort = 'default', jobHash, onProgress = () => undefined } = options;
  let endedEarly = false;
  const stop = (): boolean => {
    endedEarly ||= options.stop?.() ?? false;
    return endedEarly;
  };
  const proofs = certificatesOf(problem);
  const nothing = {
    record: undefined,
    welds: undefined,
    nearest: [],
    blockage: undefined,
    routedWithout: [],
    endedEarly,
    nodes: 0,
  };
  if (proofs.length > 0) return { ...nothing, outcome: 'proved impossible', bound: Infinity, proofs };
  const { pairs } = effortOf[effort];
  // Two primaries are soon proved finely; for more than four, pairs cost more than they have ever told.
  const count = problem.starts.length;
  const finest = count <= 2 ? 0.5 : count <= 4 ? 1 : 2;
  const held = pairs && (count <= 4 || effort === 'thorough') ? pairs : undefined;
  const bounding = (): WeldBound =>
    proveBound(problem, finest, held && { ...held, half: count <= 2 ? held.half / 2 : held.half });
  const found = search(problem, { stages: effortOf[effort].stages, seed }, bounding, {
    stop,
    progress: onProgress,
  });
  const bound = found.bound.welds;
  if (found.answer === undefined)
    return {
      ...nothing,
      ...(endedEarly || options.explain === false ? {} : explained(problem, seed)),
      outcome: 'not found',
      bound,
      proofs,
      endedEarly,
      nodes: found.nodes,
    };
  const answer: Answer = lift(problem, shorten(problem, found.answer, SHORTEN_TRIES, seed, stop), seed, stop);
  return {
    outcome: 'routed',
    record: routeRecord(problem, answer.routes, { job: name, jobHash, seed }),
    welds: answer.welds,
    bound,
    nearest: nearestThings(problem, answer.routes),
    proofs,
    blockage: undefined,
    routedWithout: [],
    endedEarly,
    nodes: found.nodes,
  };
}

/** How many of the worst blockers are left out, one at a time, to see whether that would do. */
const MOST_LEFT_OUT = 3;

/** Why nothing was found: what blocks, and which one obstacle less would let a quick search through. */
function explained(problem: RouteProblem, seed: number): Pick<RouteResult, 'blockage' | 'routedWithout'> {
  const blockage = blockageOf(problem, seed);
  const routedWithout = blockage.blockers.slice(0, MOST_LEFT_OUT).flatMap(({ name }) => {
    const open = withoutObstacles(problem, (other) => other === name);
    const { outcome } = routeProblem(open, name, { seed, effort: 'quick', explain: false });
    return outcome === 'routed' ? [name] : [];
  });
  return { blockage, routedWithout };
}
