import { mixSeed, randomFrom } from '../../base/random.js';
import { leastSpareBetween } from '../../geom/line-to-line.js';
import {
  candidateFrom,
  keepsClearOfItself,
  lineThrough,
  scratchPoints,
  type Candidate,
} from './candidate.js';
import { ENOUGH_SPARE } from './library.js';
import { blame, leastOf, sparesOf } from './measure.js';
import { normal } from './more-bends.js';
import type { RouteProblem } from './problem.js';
import { keepsLimits, spareToObstacles, weldsOfLine } from './rules.js';
import { shake } from './shake.js';
import { toLength } from './to-length.js';

/** What a repair is after. */
export interface RepairGoal {
  readonly length: number;
  /** Ends once the least spare (mm) reaches this. */
  readonly spare: number;
  readonly tries: number;
  readonly seed: number;
  /** Given up where so many tries have gained less than so much (mm). */
  readonly patience?: { readonly tries: number; readonly gain: number };
}

/** Floor (mm) of the marches while repairing. */
const FLOOR = 0.8;
const points = scratchPoints();

/**
 * Moves primaries, one at a time, so that the least spare among them grows: a seeded evolution in steps whose
 * size learns from success, every try brought back to the common length, no weld gained.
 * The sum of exp(-spare / softness) over all spares must fall with every step taken.
 */
export function repair(
  problem: RouteProblem,
  routes: readonly Candidate[],
  { length, spare: goal, tries, seed, patience }: RepairGoal,
): { readonly routes: readonly Candidate[]; readonly spare: number } {
  const count = routes.length;
  const random = randomFrom(mixSeed(seed, 78));
  const now = [...routes];
  const size = new Float64Array(count).fill(6);
  const spares = sparesOf(problem, now, FLOOR, ENOUGH_SPARE);
  const { still, pairs } = spares;
  const pairWith = new Float64Array(count);
  const march = { floor: FLOOR, stop: -Infinity, cap: ENOUGH_SPARE };

  /** The primary that stands worst. */
  const worst = (): number => {
    let [found, least] = [0, Infinity];
    for (let i = 0; i < count; i++) {
      if (problem.kept[(now[i] as Candidate).start] !== undefined) continue;
      let own = still[i] as number;
      for (let j = 0; j < count; j++) if (j !== i) own = Math.min(own, pairs[i * count + j] as number);
      if (own < least - 0.001 || (own < least + 0.01 && random.chance(0.5))) [found, least] = [i, own];
    }
    return found;
  };

  let before = leastOf(spares);
  for (let t = 0; t < tries && leastOf(spares) < goal; t++) {
    if (patience && t > 0 && t % patience.tries === 0) {
      const least = leastOf(spares);
      if (least < before + patience.gain) break;
      before = least;
    }
    const i = random.chance(0.6) ? worst() : random.whole(0, count - 1);
    const old = now[i] as Candidate;
    if (problem.kept[old.start] !== undefined) continue;
    const step = (size[i] as number) * Math.exp(normal(random) * 0.7);
    points.set(old.points);
    shake(problem, old, step, () => normal(random), points);
    const smaller = (): void => {
      size[i] = Math.max(0.1, (size[i] as number) * 0.985);
    };
    if (!toLength(problem, old.start, old.slot, points, old.clrs, length)) continue;
    const line = lineThrough(points, old.clrs, old.bends);
    if (
      !keepsLimits(problem, old.start, line) ||
      weldsOfLine(problem, old.start, line, old.clrs) > old.welds
    ) {
      smaller();
      continue;
    }
    let blameBefore = blame(still[i] as number);
    for (let j = 0; j < count; j++) if (j !== i) blameBefore += blame(pairs[i * count + j] as number);
    const own = spareToObstacles(problem, line, old.start, old.slot, march);
    let after = blame(own);
    for (let j = 0; j < count && after < blameBefore; j++) {
      if (j === i) continue;
      pairWith[j] = leastSpareBetween(line, (now[j] as Candidate).line, problem.apart, march);
      after += blame(pairWith[j] as number);
    }
    if (!(after < blameBefore) || !keepsClearOfItself(problem, old.start, line, old.clrs, 1)) {
      smaller();
      continue;
    }
    const better = candidateFrom(problem, old, points, old.clrs);
    better.spare = own;
    now[i] = better;
    still[i] = own;
    for (let j = 0; j < count; j++)
      if (j !== i) pairs[i * count + j] = pairs[j * count + i] = pairWith[j] as number;
    size[i] = Math.min(30, (size[i] as number) * 1.25);
  }
  return { routes: now, spare: leastOf(spares) };
}
