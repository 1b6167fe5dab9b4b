import { mixSeed } from '../../base/random.js';
import { armReach } from './arm-reach.js';
import { candidateFrom, isSound, type Candidate, type Way } from './candidate.js';
import { provenSpare } from './measure.js';
import { findMoreBends } from './more-bends.js';
import type { RouteProblem } from './problem.js';
import { shorten } from './shorten.js';
import { findTwoBends } from './two-bends.js';

/** How short a primary could be if it had all the room to itself. */
export interface Pace {
  readonly primary: string;
  readonly slot: string;
  /**
   * The shortest found, mm: clear of all that stands still, the other primaries left out. Found, not proved.
   * Undefined for a primary that is kept as it is, which was not looked at.
   */
  readonly shortest: number | undefined;
}

const PITCH = 16;
const TRIES = 600;
/** So many of the shortest ways are shortened further. */
const BEST = 4;
const SHORTEN_TRIES = 120;
/** A way longer than the shortest by more than this (mm) is not likely to end below it. */
const WORTH = 60;
const FLOOR = 0.4;

/**
 * The shortest that each primary of an answer could be by itself, to the slot it has: the longest of these is
 * the pace-setter, as no common length is shorter. Never longer than in the answer.
 */
export const paceOf = (problem: RouteProblem, routes: readonly Candidate[], seed: number): readonly Pace[] =>
  routes.map((route) => ({
    primary: problem.starts[route.start]?.id ?? '',
    slot: problem.slots[route.slot]?.id ?? '',
    shortest: problem.kept[route.start] ? undefined : shortestAlone(problem, route, seed).length,
  }));

/** The shortest way found for one primary with the others left out; a kept one stays as it is. */
export function shortestAlone(problem: RouteProblem, route: Candidate, seed: number): Candidate {
  const { start, slot } = route;
  if (problem.kept[start] !== undefined) return route;
  const alone: RouteProblem = {
    ...problem,
    kept: problem.kept.map(() => undefined),
    limits: { ...problem.limits, window: { from: 0, to: route.length } },
  };
  const ways: Way[] = [route];
  const shorter = (length: number): boolean => length < route.length;
  const keep = (way: Way): void => void ways.push(way);
  const reach = armReach(alone, start, slot);
  findTwoBends(alone, start, slot, reach, { pitch: PITCH, phase: 0 }, shorter, keep);
  const sampling = { bends: 3, tries: TRIES, seed: mixSeed(seed, start, slot), enough: TRIES };
  findMoreBends(alone, start, slot, sampling, shorter, keep);
  ways.sort((a, b) => a.length - b.length);
  let shortest = route;
  let tried = 0;
  for (const way of ways) {
    if (tried >= BEST || way.length >= shortest.length + WORTH) break;
    const first = candidateFrom(alone, way, way.points, way.clrs);
    if (!isSound(alone, first, FLOOR)) continue;
    tried++;
    const answer = { routes: [first], length: first.length, welds: first.welds, spare: 0 };
    const [best] = shorten(alone, answer, SHORTEN_TRIES, seed, () => false).routes;
    if (best && best.length < shortest.length && provenSpare(alone, [best]) >= 0) shortest = best;
  }
  return shortest;
}
