import { type Answer, wouldBetter } from './answer.js';
import { answerAt } from './answer-at.js';
import { leastAssignment } from './assign.js';
import { alone, type Crew } from './crew.js';
import type { FillOrder } from './fill.js';
import { keptCandidate } from './kept-candidate.js';
import { emptyPool, fewestWeldsNear, type Pool } from './pool.js';
import type { RouteProblem } from './problem.js';
import { stages } from './stages.js';
import type { WantedBy } from './wanted.js';
import { packWays, type PackedWays } from './ways.js';
import { noBound, type WeldBound } from './weld-bound.js';

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

/** Lower bounds on the welds: one soon proved, and a sharper one that takes its time, if any. */
export interface Bounding {
  readonly plain: () => WeldBound;
  /** @param known welds of the best answer, Infinity while there is none */
  readonly sharp: ((known: number) => WeldBound) | undefined;
}

/** More than any primary needs. */
const NO_END = 99;

/**
 * The fewest-weld set of primaries by candidate libraries: stages of growing effort, each filling a pool of
 * routes for every port and slot, then choosing at one length after the other. After the first stage a lower
 * bound prunes what cannot better the best.
 */
export function search(
  problem: RouteProblem,
  effort: { readonly stages: number; readonly seed: number },
  bounding: Bounding,
  watch: Watch,
  crew: Crew = alone(problem, watch.stop),
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
  const done = (): boolean =>
    best !== undefined && best.welds <= bound.welds && best.length <= shortest + 0.01;
  for (const [number, stage] of run.entries()) {
    const tell = (): void =>
      watch.progress({
        stage: number + 1,
        stages: run.length,
        bound: bound.welds,
        ...(best && { welds: best.welds, length: best.length }),
      });
    if (watch.stop() || done()) break;
    if (number === 1) bound = bounding.plain();
    // Nothing is proved of pairs before it is known that one bend more may have to do.
    if (number === 2 && bounding.sharp && (best?.welds ?? Infinity) > bound.welds)
      bound = bounding.sharp(best?.welds ?? Infinity);
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
    const wantedFor = (start: number, slot: number): WantedBy => ({
      aim,
      best: best && { welds: best.welds, length: best.length },
      rest: bound.restOf(start, slot),
    });
    const orders = freePairs(problem).map(({ start, slot }): FillOrder => ({
      start,
      slot,
      seed: effort.seed,
      stage: number,
      pitch: stage.pitch,
      bends: number >= 1 && count <= 4 ? [3, 4] : [3],
      tries: count > 4 ? Math.round((stage.tries * 16) / count ** 2) : stage.tries,
      fewest: bound.leastOf(2),
      wanted: wantedFor(start, slot),
      known: pool[start]?.[slot] as PackedWays,
    }));
    pool = poolOf(problem, orders, crew.run('fill', orders));
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
        crew,
      });
      nodes += found.nodes;
      if (found.answer && wouldBetter(best, found.answer.welds, found.answer.length)) {
        best = found.answer;
        watch.found?.();
        tell();
      }
    }
    tell();
  }
  return { answer: best, bound, nodes, stagesRun };
}

/** Ports and slots between which routes are looked for: nobody else ends where a kept primary does. */
const freePairs = ({ starts, slots, kept }: RouteProblem): { start: number; slot: number }[] =>
  starts.flatMap((_, start) =>
    slots.flatMap((_, slot) =>
      kept[start] || kept.some((one) => one?.slot === slot) ? [] : [{ start, slot }],
    ),
  );

/** The pool of what was found, and of the one way of each kept primary. */
const poolOf = (
  problem: RouteProblem,
  orders: readonly FillOrder[],
  found: readonly (PackedWays | undefined)[],
): Pool =>
  problem.starts.map((_, i) =>
    problem.slots.map((_, j) => {
      const kept = keptCandidate(problem, i);
      const at = orders.findIndex(({ start, slot }) => start === i && slot === j);
      return found[at] ?? packWays(kept?.slot === j ? [kept] : []);
    }),
  );

/** No primary is shorter than the straight line to its nearest slot. */
function leastCommonLength({ starts, slots }: RouteProblem): number {
  const chord = (p: readonly number[], q: readonly number[]): number =>
    Math.hypot(...p.map((x, i) => x - (q[i] as number)));
  return Math.max(
    ...starts.map(
      (start) => (start.built?.length ?? 0) + Math.min(...slots.map((slot) => chord(start.at, slot.at))),
    ),
  );
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
