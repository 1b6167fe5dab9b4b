import { mixSeed } from '../../base/random.js';
import { armReach } from './arm-reach.js';
import { lineThrough } from './candidate.js';
import { findMoreBends } from './more-bends.js';
import { surroundingsFor } from './obstacles.js';
import type { RouteProblem } from './problem.js';
import { spareToObstacles, type FoundObstacle } from './rules.js';
import { findTwoBends } from './two-bends.js';

/** Something that stands in the way of routes. */
export interface Blocker {
  /** The obstacle's name. */
  readonly name: string;
  /** Where the job gives it, if it does. */
  readonly path: string | undefined;
  /** Of the trial routes that would do but for one obstacle or more: the part that meets this one first. */
  readonly share: number;
}

/** What stands in the way where nothing was found. */
export interface Blockage {
  /** The most frequent first. */
  readonly blockers: readonly Blocker[];
  /** Primaries with slots to which no trial route came through. */
  readonly cutOff: readonly { readonly primary: string; readonly slots: readonly string[] }[];
}

const PITCH = 28;
const TRIES = 300;
const FLOOR = 3;

/** A problem with fewer obstacles. */
export const withoutObstacles = (problem: RouteProblem, dropped: (name: string) => boolean): RouteProblem => {
  const obstacles = problem.obstacles.filter(({ name }) => !dropped(name));
  return {
    ...problem,
    obstacles,
    surroundings: problem.starts.map((start) =>
      problem.slots.map((slot) => surroundingsFor(start, slot, obstacles)),
    ),
  };
};

/**
 * What blocks: trial routes that keep every limit are drawn as if nothing stood round, and each is charged to
 * the obstacle that it is deepest in.
 */
export function blockageOf(problem: RouteProblem, seed: number): Blockage {
  const empty = withoutObstacles(problem, () => true);
  const charged = new Map<string, number>();
  let tried = 0;
  const cutOff: { primary: string; slots: string[] }[] = [];
  problem.starts.forEach((start, i) => {
    const slots: string[] = [];
    problem.slots.forEach((slot, j) => {
      let through = false;
      const look = (way: { readonly points: Float64Array; readonly clrs: readonly number[] }): void => {
        const line = lineThrough(way.points, way.clrs, way.clrs.length);
        const found: FoundObstacle = { obstacle: undefined, station: 0 };
        const march = { floor: FLOOR, stop: -Infinity, cap: 0 };
        tried++;
        if (spareToObstacles(problem, line, i, j, march, found) >= 0) through = true;
        const name = found.obstacle?.name;
        if (name !== undefined) charged.set(name, (charged.get(name) ?? 0) + 1);
      };
      const always = (): boolean => true;
      findTwoBends(empty, i, j, armReach(empty, i, j), { pitch: PITCH, phase: 0 }, always, look);
      const sampling = { bends: 3, tries: TRIES, seed: mixSeed(seed, i, j), enough: TRIES };
      findMoreBends(empty, i, j, sampling, always, look);
      if (!through) slots.push(slot.id);
    });
    if (slots.length > 0) cutOff.push({ primary: start.id, slots });
  });
  const blockers = [...charged]
    .map(([name, count]): Blocker => {
      const path = problem.obstacles.find((obstacle) => obstacle.name === name)?.path;
      return { name, path, share: count / Math.max(1, tried) };
    })
    .sort((a, b) => b.share - a.share || (a.name < b.name ? -1 : 1));
  return { blockers, cutOff };
}
