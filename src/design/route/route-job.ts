import { type Rack } from '../../job/rack.js';
import { type Answer } from './answer.js';
import { certificatesOf, type Certificate } from './certificates.js';
import { lift } from './lift.js';
import { nearestThings, type NearestThing } from './nearest.js';
import { proveBound } from './prove-bound.js';
import { type RouteProblem } from './problem.js';
import { routeRecord, type RouteRecord } from './record.js';
import { search, type Watch } from './search.js';
import { setProblem, type FieldOf, type RoutableJob } from './set-problem.js';
import { shorten } from './shorten.js';
import { stages } from './stages.js';
import { type WeldBound } from './weld-bound.js';

/** How hard to search: how many of the stages of growing effort are run. */
export type Effort = 'quick' | 'default' | 'thorough';

const stagesOf: Readonly<Record<Effort, number>> = { quick: 2, default: 4, thorough: stages.length };

/** How a job is to be routed. */
export interface RouteOptions {
  /** Same job, same seed: the same answer, on any machine. */
  readonly seed: number;
  readonly effort?: Effort;
  /** Written into the record. */
  readonly jobHash?: string;
  /** Signed distance to keep-outs that are files. */
  readonly fieldOf?: FieldOf;
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
  const problem = setProblem(job, rack, options.fieldOf);
  return routeProblem(problem, job.name, options);
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
  const nothing = { record: undefined, welds: undefined, nearest: [], endedEarly, nodes: 0 };
  if (proofs.length > 0) return { ...nothing, outcome: 'proved impossible', bound: Infinity, proofs };
  const bounding = (): WeldBound => proveBound(problem, problem.starts.length > 4 ? 2 : 1);
  const found = search(problem, { stages: stagesOf[effort], seed }, bounding, { stop, progress: onProgress });
  const bound = found.bound.welds;
  if (found.answer === undefined)
    return { ...nothing, outcome: 'not found', bound, proofs, endedEarly, nodes: found.nodes };
  const answer: Answer = lift(problem, shorten(problem, found.answer, SHORTEN_TRIES, seed, stop), seed, stop);
  return {
    outcome: 'routed',
    record: routeRecord(problem, answer.routes, { job: name, jobHash, seed }),
    welds: answer.welds,
    bound,
    nearest: nearestThings(problem, answer.routes),
    proofs,
    endedEarly,
    nodes: found.nodes,
  };
}
