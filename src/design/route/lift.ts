import type { Answer } from './answer.js';
import { ENOUGH_SPARE } from './library.js';
import { provenSpare, weldsOf } from './measure.js';
import type { RouteProblem } from './problem.js';
import { repair } from './repair.js';
import { isSound } from './candidate.js';

/** Rounds of lifting, and tries in each. */
const ROUNDS = 4;
const TRIES = 600;
/** Floor (mm) of the march against itself that ends it. */
const FINE = 0.1;

/** Lifts the least spare of an answer at its own length and welds, up to what is worth having (12 mm). */
export function lift(problem: RouteProblem, answer: Answer, seed: number, stop: () => boolean): Answer {
  let best = answer;
  for (let round = 0; round < ROUNDS && best.spare < ENOUGH_SPARE && !stop(); round++) {
    const goal = { length: best.length, spare: ENOUGH_SPARE, tries: TRIES, seed: seed + 1000 + round };
    const { routes } = repair(problem, best.routes, goal);
    const spare = provenSpare(problem, routes);
    if (spare <= best.spare || !routes.every((route) => isSound(problem, route, FINE))) continue;
    best = { ...best, routes, spare, welds: weldsOf(routes) };
  }
  return best;
}
