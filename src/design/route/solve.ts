import type { Answer } from './answer.js';
import { blockageOf, type Blockage } from './blockers.js';
import { certificatesOf, type Certificate } from './certificates.js';
import { alone } from './crew.js';
import { lift } from './lift.js';
import { proveBound, type ProvedBound } from './prove-bound.js';
import type { PairProof } from './prove-pairs.js';
import type { RouteProblem } from './problem.js';
import { search, type Watch } from './search.js';
import type { FieldOf } from './obstacles.js';
import type { CollectorPose } from './set-problem.js';
import { shorten } from './shorten.js';
import { stages } from './stages.js';
import { crewOf, type Team } from './team.js';
import type { WeldBound } from './weld-bound.js';

/** How hard to search: how many of the stages of growing effort are run, and how hard the bound is proved. */
export type Effort = 'quick' | 'default' | 'thorough';

/** How pairs are proved, the finer where the coarser has not told enough. */
const PAIRS: readonly PairProof[] = [
  { half: 1, clashes: 300_000 },
  { half: 0.5, clashes: 2_000_000 },
];

const effortOf: Readonly<Record<Effort, { readonly stages: number; readonly pairs?: readonly PairProof[] }>> =
  {
    quick: { stages: 2 },
    default: { stages: 4, pairs: PAIRS },
    thorough: { stages: stages.length, pairs: [...PAIRS, { half: 0.5, clashes: 4_000_000 }] },
  };

/** How a job is to be routed. */
export interface RouteOptions {
  /** Same job, same seed: the same answer, on any machine. */
  readonly seed: number;
  readonly effort?: Effort;
  /** Written into the record. */
  readonly jobHash?: string;
  /** Signed distance to keep-outs that are files. */
  readonly fieldOf?: FieldOf;
  /** False leaves out why nothing was found, and how short each primary could be: both cost further searches. */
  readonly explain?: boolean;
  readonly onProgress?: Watch['progress'];
  /** Who works off the parts of the search; this thread alone where left out. */
  readonly team?: Team;
  /** Asked now and then; true ends the search with the best so far, and the result says so. */
  readonly stop?: () => boolean;
}

/** What the search came to, before its numbers are rounded and written down. */
export interface Solved {
  /** `not found` and `proved impossible` are different things: only the latter is certain. */
  readonly outcome: 'routed' | 'proved impossible' | 'not found';
  readonly answer: Answer | undefined;
  /** No answer has fewer welds: proved. */
  readonly bound: number;
  /** Proofs that there is no answer; empty unless proved impossible. */
  readonly proofs: readonly Certificate[];
  /** What stands in the way, where nothing was found; undefined otherwise. */
  readonly blockage: Blockage | undefined;
  /** True where `stop` ended it early. */
  readonly endedEarly: boolean;
  readonly nodes: number;
}

/** Work spent on shortening and on lifting the least clearance, in tries. */
const SHORTEN_TRIES = 500;

/** A quick search that keeps to this thread and explains nothing. */
export function quickSearch(problem: RouteProblem, { seed, stop }: RouteOptions): Solved {
  return solve(problem, { seed, effort: 'quick', explain: false, ...(stop && { stop }) });
}

/**
 * Finds the routes of a problem that is set, as exact as they come.
 * @param pose of the collector, where a team is to set the same problem at another than the job's own
 */
export function solve(problem: RouteProblem, options: RouteOptions, pose?: CollectorPose): Solved {
  const { seed, effort = 'default', onProgress = () => undefined } = options;
  let endedEarly = false;
  const stop = (): boolean => {
    endedEarly ||= options.stop?.() ?? false;
    return endedEarly;
  };
  const proofs = certificatesOf(problem);
  const nothing = { answer: undefined, blockage: undefined, endedEarly, nodes: 0 };
  if (proofs.length > 0) return { ...nothing, outcome: 'proved impossible', bound: Infinity, proofs };
  const { pairs } = effortOf[effort];
  // Two primaries are soon proved finely; for more than four, pairs cost more than they have ever told.
  const count = problem.starts.length;
  const finest = count <= 2 ? 0.5 : count <= 4 ? 1 : 2;
  const held = pairs && (count <= 4 || effort === 'thorough') ? pairs : undefined;
  const crew = options.team === undefined ? alone(problem, stop) : crewOf(options.team, pose);
  let proved: ProvedBound | undefined;
  const plain = (): ProvedBound => (proved ??= proveBound(problem, finest, crew));
  const sharp =
    held &&
    ((known: number): WeldBound => {
      let best: WeldBound = plain();
      for (const { half, clashes } of held)
        if (best.welds < known && !stop())
          best = higher(best, plain().together({ half: count <= 2 ? half / 2 : half, clashes }, known));
      return best;
    });
  const watch = { stop, progress: onProgress };
  const found = search(problem, { stages: effortOf[effort].stages, seed }, { plain, sharp }, watch, crew);
  const bound = found.bound.welds;
  if (found.answer === undefined)
    return {
      ...nothing,
      ...(endedEarly || options.explain === false ? {} : { blockage: blockageOf(problem, seed) }),
      outcome: 'not found',
      bound,
      proofs,
      endedEarly,
      nodes: found.nodes,
    };
  const answer: Answer = lift(problem, shorten(problem, found.answer, SHORTEN_TRIES, seed, stop), seed, stop);
  return {
    outcome: 'routed',
    answer,
    bound,
    proofs,
    blockage: undefined,
    endedEarly,
    nodes: found.nodes,
  };
}

const higher = (a: WeldBound, b: WeldBound): WeldBound => (b.welds > a.welds ? b : a);
