import type { Vector } from '../../base/vectors.js';
import type { Rack } from '../../job/rack.js';
import { certificatesOf } from './certificates.js';
import { possibleChanges, withChange, type Change, type PossibleChange } from './possible-changes.js';
import type { RouteProblem } from './problem.js';
import { search } from './search.js';
import { setProblem, type CollectorPose, type FieldOf, type RoutableJob } from './set-problem.js';
import { proofReaches, smallestTried, type Tried } from './smallest-size.js';
import { noBound } from './weld-bound.js';

/** A change that was tried, and routes were found with it. */
export interface WouldFree {
  readonly change: Change;
  /** How much: mm, rad where the collector is turned. */
  readonly size: number;
  /** Size against what is changed, by which these are ranked. */
  readonly relative: number;
  /** The value in the job, and what to write in its place; mm, rad. */
  readonly was: number | Vector;
  readonly now: number | Vector;
  /** So much, or less, is proved to leave it impossible; 0 where nothing is proved. */
  readonly tooLittle: number;
  /** Common length (mm) of the routes found. */
  readonly length: number;
}

/** What the tries go by. */
export interface FreeingRules {
  readonly seed: number;
  /** Names of the keep-outs in the way, the worst first. */
  readonly blockers: readonly string[];
  /** The pose that was searched, where the collector may turn or move: then nothing is claimed as proved. */
  readonly pose: CollectorPose | undefined;
  readonly fieldOf: FieldOf | undefined;
  readonly stop: () => boolean;
  readonly progress: (tries: number, most: number) => void;
}

/** How many of the smallest changes are told. */
const TELL = 3;
/** Searches while looking which changes do at all, and while making those told smaller. */
const EXPLORING = { stages: 1, searches: 28, near: 0.25 } as const;
const NARROWING = { stages: 2, searches: 6, near: 0.08 } as const;
const MOST = EXPLORING.searches + NARROWING.searches;

/**
 * The smallest changes that let a quick search find routes where there were none: each kind of change is
 * brought to the smallest size that still does, as far as a bounded number of searches reaches. Tried, and
 * routes were found: a smaller change may do as well, unless `tooLittle` says that it is proved not to.
 */
export function whatWouldFree(job: RoutableJob, rack: Rack, rules: FreeingRules): readonly WouldFree[] {
  const { seed, pose, fieldOf, stop, progress } = rules;
  let searches = 0;
  const problemOf = (change: Change, size: number): RouteProblem => {
    const { job: changed } = withChange(job, change, size);
    return setProblem(changed, rack, fieldOf, pose && { ...pose, at: changed.collector.at });
  };
  const isProved = (change: Change, size: number): boolean =>
    certificatesOf(problemOf(change, size)).length > 0;
  const tryWith =
    (stages: number) =>
    (change: Change, size: number): Tried => {
      const problem = problemOf(change, size);
      if (certificatesOf(problem).length > 0) return undefined;
      progress(++searches, MOST);
      const length = lengthFound(problem, { stages, seed }, stop);
      return length === undefined ? undefined : { size, length };
    };

  const found: {
    readonly one: PossibleChange;
    readonly tried: NonNullable<Tried>;
    readonly tooLittle: number;
  }[] = [];
  const rank = (): void => {
    const relative = ({ one, tried }: (typeof found)[number]): number => tried.size / one.scale;
    found.sort((a, b) => relative(a) - relative(b));
  };
  const explore = { ...EXPLORING, tryOf: tryWith(EXPLORING.stages) };
  const unhelped = new Set<string>();
  for (const one of possibleChanges(job, rules.blockers)) {
    const last = found[TELL - 1];
    // Only what would still be told is worth a search.
    const most = Math.min(
      one.most,
      last === undefined ? Infinity : (last.tried.size / last.one.scale) * one.scale,
    );
    const spent = (): boolean => searches >= EXPLORING.searches || stop();
    const body = 'path' in one.change ? one.change.path : undefined;
    if (spent() || (body !== undefined && unhelped.has(body))) continue;
    const tooLittle = one.onlyEases ? proofReaches(one, most, isProved) : 0;
    const tried = smallestTried(one, most, tooLittle, { ...explore, spent });
    if (tried !== undefined) found.push({ one, tried, tooLittle });
    // What does not help when it is gone altogether does not help when it is smaller.
    else if (one.change.kind === 'left out' && body !== undefined) unhelped.add(body);
    rank();
  }
  const narrow = { ...NARROWING, tryOf: tryWith(NARROWING.stages) };
  const told = found.slice(0, TELL);
  const before = searches;
  const narrowed = told.map((each, i) => {
    const share = Math.ceil((NARROWING.searches * (i + 1)) / told.length);
    const spent = (): boolean => searches - before >= share || stop();
    const { one, tooLittle, tried } = each;
    return { ...each, tried: smallestTried(one, one.most, tooLittle, { ...narrow, spent }, tried) ?? tried };
  });
  found.splice(0, found.length, ...narrowed);
  rank();
  return found.map(({ one, tried, tooLittle }): WouldFree => {
    const { was, now } = withChange(job, one.change, tried.size);
    return {
      change: one.change,
      ...tried,
      relative: tried.size / one.scale,
      was,
      now,
      tooLittle: pose === undefined ? tooLittle : 0,
    };
  });
}

/** The common length of the first routes that a search finds; undefined where it finds none. */
function lengthFound(
  problem: RouteProblem,
  effort: { readonly stages: number; readonly seed: number },
  stop: () => boolean,
): number | undefined {
  let any = false;
  const watch = {
    stop: (): boolean => any || stop(),
    progress: (): void => undefined,
    found: (): void => void (any = true),
  };
  return search(problem, effort, () => noBound(problem), watch).answer?.length;
}
