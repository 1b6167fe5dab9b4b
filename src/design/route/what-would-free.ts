import type { Vector } from '../../base/vectors.js';
import type { Rack } from '../../job/rack.js';
import { withoutObstacles } from './blockers.js';
import { certificatesOf } from './certificates.js';
import { possibleChanges, withChange, type Change, type PossibleChange } from './possible-changes.js';
import type { RouteProblem } from './problem.js';
import { search } from './search.js';
import type { FieldOf } from './obstacles.js';
import { setProblem, type CollectorPose, type RoutableJob } from './set-problem.js';
import { firstTried, proofReaches, smallestTried, type Tried } from './smallest-size.js';
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

/** What came of trying. */
export interface Freeing {
  /** The smallest changes with which routes were found, the smallest first. */
  readonly wouldFree: readonly WouldFree[];
  /** Those in the way without which routes were found. */
  readonly routedWithout: readonly string[];
}

/** How many of the smallest changes are told. */
const TELL = 3;
/** Searches while looking which changes do at all, while ranking those, and while making those told smaller. */
const EXPLORING = { stages: 1, searches: 32, near: 0.3 } as const;
const RANKING = { ...EXPLORING, searches: 16 } as const;
const NARROWING = { stages: 2, searches: 6, near: 0.08 } as const;
const MOST = EXPLORING.searches + RANKING.searches + NARROWING.searches;

interface Found {
  readonly one: PossibleChange;
  readonly tried: NonNullable<Tried>;
  readonly tooLittle: number;
}

const relativeOf = ({ one, tried }: Found): number => tried.size / one.scale;
const smallestFirst = (found: readonly Found[]): Found[] =>
  [...found].sort((a, b) => relativeOf(a) - relativeOf(b));

/** Where only the most has been tried, half way to the least (by ratio) is as likely as any. */
const likelyFirst = (found: readonly Found[]): Found[] => {
  const likely = ({ one, tried }: Found): number =>
    (one.onlyEases ? Math.sqrt(tried.size * one.step) : tried.size) / one.scale;
  return [...found].sort((a, b) => likely(a) - likely(b));
};

/**
 * The smallest changes that let a quick search find routes where there were none: first which changes do at
 * all, then each is brought to the smallest size that still does, as far as a bounded number of searches
 * reaches. Tried, and routes were found: a smaller change may do as well, unless `tooLittle` says that it is
 * proved not to.
 */
export function whatWouldFree(job: RoutableJob, rack: Rack, rules: FreeingRules): Freeing {
  const { seed, blockers, pose, fieldOf, stop, progress } = rules;
  let searches = 0;
  const lengthOf = (problem: RouteProblem, stages: number): number | undefined => {
    if (certificatesOf(problem).length > 0) return undefined;
    progress(++searches, MOST);
    return lengthFound(problem, { stages, seed }, stop);
  };
  const problemOf = (changed: RoutableJob): RouteProblem =>
    setProblem(changed, rack, fieldOf, pose && { ...pose, at: changed.collector.at });
  const problemWith = (change: Change, size: number): RouteProblem =>
    problemOf(withChange(job, change, size).job);
  const isProved = (change: Change, size: number): boolean =>
    certificatesOf(problemWith(change, size)).length > 0;
  const tryWith =
    (stages: number) =>
    (change: Change, size: number): Tried => {
      const length = lengthOf(problemWith(change, size), stages);
      return length === undefined ? undefined : { size, length };
    };
  /** Whether so many searches more than now have been made, or it is to stop. */
  const after = (more: number): (() => boolean) => {
    const end = searches + more;
    return () => searches >= end || stop();
  };
  let spent = after(EXPLORING.searches);

  // What does not help when it is gone altogether does not help when it is smaller.
  const asItIs = problemOf(job);
  const routedWithout = blockers.filter(
    (name) =>
      !spent() &&
      lengthOf(
        withoutObstacles(asItIs, (other) => other === name),
        EXPLORING.stages,
      ) !== undefined,
  );

  const explore = { ...EXPLORING, tryOf: tryWith(EXPLORING.stages), spent };
  const doing = possibleChanges(job, routedWithout).flatMap((one): Found[] => {
    const tooLittle = one.onlyEases ? proofReaches(one, isProved) : 0;
    const tried = firstTried(one, tooLittle, explore);
    return tried === undefined ? [] : [{ one, tried, tooLittle }];
  });
  spent = after(RANKING.searches);
  const ranking = { ...explore, spent };
  let found: Found[] = [];
  for (const each of likelyFirst(doing)) {
    // Only what is smaller than those that would be told is worth more searches.
    const last = found[TELL - 1];
    const most = last === undefined ? Infinity : relativeOf(last) * each.one.scale;
    const tried = smallestTried(each.one, each, ranking, most);
    found = smallestFirst([...found, { ...each, tried }]);
  }
  const narrow = { ...NARROWING, tryOf: tryWith(NARROWING.stages) };
  const told = found.slice(0, TELL).map((each, _, all): Found => {
    const enough = after(Math.ceil(NARROWING.searches / all.length));
    return { ...each, tried: smallestTried(each.one, each, { ...narrow, spent: enough }) };
  });
  const wouldFree = smallestFirst(told).map((each): WouldFree => {
    const { change } = each.one;
    const { was, now } = withChange(job, change, each.tried.size);
    const tooLittle = pose === undefined ? each.tooLittle : 0;
    return { change, ...each.tried, relative: relativeOf(each), was, now, tooLittle };
  });
  return { wouldFree, routedWithout };
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
  const unproved = { ...noBound(problem), together: () => noBound(problem) };
  return search(problem, effort, { plain: () => unproved, sharp: undefined }, watch).answer?.length;
}
