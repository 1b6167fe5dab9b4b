import { mixSeed } from '../../base/random.js';
import { type Answer, wouldBetter } from './answer.js';
import { answerAt } from './answer-at.js';
import { armReach } from './arm-reach.js';
import { leastAssignment } from './assign.js';
import { keptCandidate } from './kept-candidate.js';
import { noBound, type WeldBound } from './weld-bound.js';
import { findMoreBends } from './more-bends.js';
import { emptyPool, fewestWeldsNear, twinSieve, type Pool } from './pool.js';
import type { RouteProblem } from './problem.js';
import { stages } from './stages.js';
import { findTwoBends, type Wanted } from './two-bends.js';

/** How a search is watched. */
export interface Watch {
  /** Asked now and then; true ends the search with the best so far. */
  readonly stop: () => boolean;
  /** Told of each answer as it is found. */
  readonly found?: () => void;
  readonly progress: (told: {
    stage: number;
    stages: number;
    welds?: number;
    bound?: number;
    length?: number;
    /** Nothing was found, and changes are being tried: `stage` of `stages` at the most. */
    freeing?: boolean;
  }) => void;
}

export interface Searched {
  readonly answer: Answer | undefined;
  readonly bound: WeldBound;
  /** Nodes of branch and bound, and routes that were tried at all. */
  readonly nodes: number;
  readonly stagesRun: number;
}

/** More than any primary needs. */
const NO_END = 99;
/** Welds of the dearest primary looked at while nothing is found, and after. */
const DEAREST = 6;

/**
 * The fewest-weld set of primaries by candidate libraries: stages of growing effort, each filling a pool of
 * routes for every port and slot, then choosing at one length after the other. After the first stage a lower
 * bound prunes what cannot better the best.
 */
export function search(
  problem: RouteProblem,
  effort: { readonly stages: number; readonly seed: number },
  bounding: () => WeldBound,
  watch: Watch,
): Searched {
  const { window } = problem.limits;
  const count = problem.starts.length;
  const shortest = Math.max(window.from, leastCommonLength(problem));
  let bound = noBound(problem);
  let best: Answer | undefined;
  let nodes = 0;
  let pool = emptyPool(problem);
  let stagesRun = 0;
  const run = stages.slice(0, effort.stages);
  const reaches = problem.starts.map((_, i) => problem.slots.map((_, j) => armReach(problem, i, j)));
  const done = (): boolean =>
    best !== undefined && best.welds <= bound.welds && best.length <= shortest + 0.01;
  for (const [number, stage] of run.entries()) {
    if (watch.stop() || done()) break;
    if (number === 1) bound = bounding();
    if (done()) break;
    stagesRun++;
    /** What the set as a whole must come down to for a route to be of use: half way from bound to best. */
    const last = number === run.length - 1;
    const aim =
      best === undefined
        ? NO_END
        : last || number === 0 || best.welds === bound.welds
          ? best.welds
          : Math.floor((bound.welds + best.welds - 1) / 2);
    const wantedFor =
      (start: number, slot: number): Wanted =>
      (length, welds) => {
        if (welds > DEAREST) return false;
        if (best === undefined) return true;
        const goal = Math.min(aim, length < best.length - 0.5 ? best.welds : best.welds - 1);
        return welds + bound.restOf(start, slot, length) <= goal;
      };
    const tries = count > 4 ? Math.round((stage.tries * 16) / count ** 2) : stage.tries;
    const next: Pool = emptyPool(problem);
    for (let i = 0; i < count && !watch.stop(); i++)
      for (let j = 0; j < count; j++) {
        const into = next[i]?.[j] as Pool[number][number];
        const kept = keptCandidate(problem, i);
        if (kept?.slot === j) into.push(kept);
        // Nobody else ends where a kept primary does.
        if (kept || problem.kept.some((one) => one?.slot === j)) continue;
        const wanted = wantedFor(i, j);
        const sieve = twinSieve(bound.leastOf(2));
        const keep = (route: Pool[number][number][number]): void => {
          if (sieve(route)) into.push(route);
        };
        for (const route of pool[i]?.[j] ?? []) if (wanted(route.length, route.welds)) keep(route);
        const grid = { pitch: stage.pitch, phase: ((effort.seed + number) % 5) / 5 };
        findTwoBends(problem, i, j, reaches[i]?.[j] as (typeof reaches)[0][0], grid, wanted, keep);
        for (const bends of number >= 1 && count <= 4 ? [3, 4] : [3]) {
          const seed = mixSeed(effort.seed, i, j, bends, number);
          const sampling = {
            bends,
            seed,
            tries: bends === 3 ? tries : tries / 2,
            enough: bends === 3 ? 4000 : 1500,
          };
          findMoreBends(problem, i, j, sampling, wanted, keep);
        }
      }
    pool = next;
    const near = Math.max(12, stage.step * 0.6 + 4);
    for (const { length, welds } of lengthsToTry(problem, pool, bound, stage.step, near, shortest)) {
      if (watch.stop()) break;
      if (!wouldBetter(best, welds, length)) continue;
      const found = answerAt(problem, pool, length, {
        stage,
        near,
        best,
        seed: effort.seed,
        mayRepair: number > 0,
        fewest: bound.leastOf(2),
        wantedFor,
      });
      nodes += found.nodes;
      if (found.answer && wouldBetter(best, found.answer.welds, found.answer.length)) {
        best = found.answer;
        watch.found?.();
      }
    }
    watch.progress({
      stage: number + 1,
      stages: run.length,
      bound: bound.welds,
      ...(best && { welds: best.welds, length: best.length }),
    });
  }
  return { answer: best, bound, nodes, stagesRun };
}

/** No primary is shorter than the straight line to its nearest slot. */
function leastCommonLength({ starts, slots }: RouteProblem): number {
  const chord = (p: readonly number[], q: readonly number[]): number =>
    Math.hypot(...p.map((x, i) => x - (q[i] as number)));
  return Math.max(...starts.map((start) => Math.min(...slots.map((slot) => chord(start.at, slot.at)))));
}

/** Lengths over the window with what the pool could make of them, the fewest welds first, then the shortest. */
function lengthsToTry(
  problem: RouteProblem,
  pool: Pool,
  bound: WeldBound,
  step: number,
  near: number,
  shortest: number,
): readonly { readonly length: number; readonly welds: number }[] {
  const tries: { length: number; welds: number }[] = [];
  for (let length = shortest; length <= problem.limits.window.to + 0.001; length += step) {
    const welds = Math.max(
      bound.at(length),
      leastAssignment(fewestWeldsNear(pool, length, near), problem.orders),
    );
    if (welds < Infinity) tries.push({ length, welds });
  }
  return tries.sort((a, b) => a.welds - b.welds || a.length - b.length);
}
