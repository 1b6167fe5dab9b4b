import { mixSeed, randomFrom } from '../../base/random.js';
import { candidateFrom, isSound, lineThrough, scratchPoints, type Candidate } from './candidate.js';
import { provenSpare, weldsOf } from './measure.js';
import { normal } from './more-bends.js';
import type { RouteProblem } from './problem.js';
import { repair } from './repair.js';
import { keepsLimits, weldsOfLine } from './rules.js';
import { shake } from './shake.js';
import type { Answer } from './answer.js';
import { toLength } from './to-length.js';

/** First step (mm), and the step at which shortening ends. */
const FIRST = 16;
const LAST = 0.4;
/** Tries to bring one primary back within its limits after it has been shortened. */
const TRIES = 400;
/** A straight may fall short by so much (mm) before it is pushed back. */
const SHORT = 8;

const points = scratchPoints();

/**
 * Shortens all primaries together while they stay sound and gain no weld: by a step that grows with success
 * and halves without, repaired each time. Ends at the window's start or when the step is small.
 */
export function shorten(
  problem: RouteProblem,
  answer: Answer,
  tries: number,
  seed: number,
  stop: () => boolean,
): Answer {
  let best = answer;
  let step = FIRST;
  // What is kept sets the length.
  if (problem.kept.some((one) => one !== undefined)) return answer;
  for (let round = 0; step > LAST && !stop(); round++) {
    const length = Math.max(problem.limits.window.from, best.length - step);
    if (length > best.length - LAST / 8) break;
    const shorter = allShorter(problem, best.routes, length, mixSeed(seed, round));
    const repaired = shorter && repair(problem, shorter, { length, spare: 0.25, tries, seed: seed + round });
    if (repaired && repaired.routes.every((route) => isSound(problem, route, LAST))) {
      const spare = provenSpare(problem, repaired.routes);
      if (spare >= 0) {
        best = { ...best, length, routes: repaired.routes, spare, welds: weldsOf(repaired.routes) };
        step *= 1.5;
        continue;
      }
    }
    step /= 2;
  }
  return best;
}

/** Every primary at the new length, within its limits and welds, or undefined where one will not go. */
function allShorter(
  problem: RouteProblem,
  routes: readonly Candidate[],
  length: number,
  seed: number,
): readonly Candidate[] | undefined {
  const shorter: Candidate[] = [];
  for (const [i, route] of routes.entries()) {
    const next = oneShorter(problem, route, length, mixSeed(seed, i));
    if (next === undefined) return undefined;
    shorter.push(next);
  }
  return shorter;
}

function oneShorter(
  problem: RouteProblem,
  route: Candidate,
  length: number,
  seed: number,
): Candidate | undefined {
  const { clrs, bends, start, slot } = route;
  const fits = (): Candidate | undefined => {
    if (!toLength(problem, start, slot, points, clrs, length)) return undefined;
    const line = lineThrough(points, clrs, bends);
    if (!keepsLimits(problem, start, line) || weldsOfLine(problem, start, line, clrs) > route.welds)
      return undefined;
    return candidateFrom(problem, route, points, clrs);
  };
  points.set(route.points);
  const straight = fits();
  if (straight) return straight;
  points.set(route.points);
  if (!toLength(problem, start, slot, points, clrs, length)) return undefined;
  if (!keepsLimits(problem, start, lineThrough(points, clrs, bends), SHORT)) return undefined;
  const near = points.slice();
  const random = randomFrom(seed);
  for (let t = 0; t < TRIES; t++) {
    points.set(near);
    shake(problem, route, 1 + t * 0.06, () => normal(random), points);
    const found = fits();
    if (found) return found;
  }
  return undefined;
}
