import { tolerance } from '../../base/tolerance.js';
import type { ProgramRow } from './linear-program.js';
import type { CuttingRules } from './rules.js';
import { NO_STICKS, packSticks, PENNY } from './sticks.js';
import type { Step, Ways } from './ways.js';

/** One insert of a step, by its place among them. */
export interface StepInsert {
  readonly step: Step;
  readonly part: number;
}

/** That certain inserts together cost at least so much in sticks, whatever else is chosen. */
export interface StickFloor {
  readonly inserts: readonly StepInsert[];
  readonly cost: number;
}

export const lengthOf = ({ step, part }: StepInsert): number => step.share.inserts[part] ?? 0;

/** Longer lists are not searched for the few inserts that matter. */
const MOST_TO_TRIM = 24;

/** The same floor by as few inserts as will do: the fewer there are, the more plans it speaks of. */
export function trimmedFloor({ inserts, cost }: StickFloor, rules: CuttingRules): StickFloor {
  if (inserts.length > MOST_TO_TRIM) return { inserts, cost };
  let kept = [...inserts].sort((a, b) => lengthOf(a) - lengthOf(b));
  for (const one of [...kept]) {
    const rest = kept.filter((other) => other !== one);
    const packed = packSticks(rest.map(lengthOf), rules, 5000);
    if (packed.proved && Math.min(packed.cost, NO_STICKS) >= cost - PENNY) kept = rest;
  }
  return { inserts: kept, cost };
}

/** An insert sawn from a spare leg, and its unknown in the program. */
export type FromLeg = StepInsert & { readonly leg: number; readonly unknown: number };

/**
 * A floor as a row: sticks cost at least so much where each of its inserts, or a longer one in the same place
 * of another way, is sawn from sticks. Only one way is taken past each straight, so each place counts once.
 */
export function floorTerms(
  { inserts, cost }: StickFloor,
  primaries: readonly Ways[],
  stepAt: ReadonlyMap<Step, number>,
  fromLegs: readonly FromLeg[],
): ProgramRow['terms'] {
  const sums = new Map<number, number>();
  const count = (unknown: number, by: number): void => {
    sums.set(unknown, (sums.get(unknown) ?? 0) + by);
  };
  const places = new Map<readonly Step[], StepInsert[]>();
  for (const insert of inserts) {
    const place = primaries
      .map(({ steps }) => steps[insert.step.straight] ?? [])
      .find((steps) => steps.includes(insert.step));
    if (place) places.set(place, [...(places.get(place) ?? []), insert]);
  }
  for (const [steps, mine] of places) {
    const asked = mine.map(lengthOf).sort((a, b) => b - a);
    for (const step of steps) {
      const at = stepAt.get(step);
      if (at === undefined) continue;
      const parts = step.share.inserts
        .map((length, part) => ({ length, part }))
        .sort((a, b) => b.length - a.length);
      asked.forEach((length, rank) => {
        const other = parts[rank];
        if (other === undefined || other.length < length - tolerance.samePoint) return;
        count(at, cost);
        for (const one of fromLegs)
          if (one.step === step && one.part === other.part) count(one.unknown, -cost);
      });
    }
  }
  return [...sums];
}
