import { flatSeenFrom, seenFrom } from '../../base/frames.js';
import { tidy } from '../../base/numbers.js';
import { minus } from '../../base/points.js';
import type { Problem } from '../../base/problems.js';
import { tolerance } from '../../base/tolerance.js';
import { add, dot3 } from '../../base/vectors.js';
import { leastGap } from '../../geom/least-gap.js';
import { isInside, movedLoop, pointOf } from '../../geom/loops.js';
import type { Loop } from '../../geom/segments.js';
import type { DesignedFlange } from './designed.js';

/** Room between two plates on the head, mm: heat makes them grow, and a feeler must go between. */
const LEAST_GAP = 1;

/** Plates of their own on one face that would lie on top of each other, or too close. */
export function checkPlates(flanges: readonly DesignedFlange[]): Problem[] {
  return flanges.flatMap((one, i) =>
    flanges.slice(i + 1).flatMap((other) => {
      const beside = seenFromPlate(one, other);
      if (beside === undefined) return [];
      const outline = one.part.outline;
      const inside = isInside(outline, pointOf(beside)) || isInside(beside, pointOf(outline));
      const gap = inside ? 0 : leastGap(outline, beside).gap;
      if (gap >= LEAST_GAP) return [];
      return {
        code: 'flange/plates-overlap',
        severity: 'error',
        what: `${gap === 0 ? `${one.part.name} and ${other.part.name} overlap` : `${tidy(gap, 2)} mm between ${one.part.name} and ${other.part.name}`}, least ${LEAST_GAP} mm`,
        why: 'the second plate does not go down on the head once the first is on',
        fix: `set flange.made_as: one piece, or make flange.boss and flange.edge ${tidy(LEAST_GAP - gap + 1, 1)} mm smaller`,
        place: { path: 'flange.made_as' },
      } satisfies Problem;
    }),
  );
}

/** Another plate's outline in this one's frame; undefined where the two do not lie on one plane. */
function seenFromPlate(one: DesignedFlange, other: DesignedFlange): Loop | undefined {
  const [frame, its] = [one.plan.frame, other.plan.frame];
  if (dot3(frame.out, its.out) < 1 - tolerance.samePoint) return undefined;
  if (Math.abs(seenFrom(frame, its.origin)[2]) > tolerance.shop) return undefined;
  const origin = flatSeenFrom(frame, its.origin);
  const right = minus(flatSeenFrom(frame, add(its.origin, its.right)), origin);
  return movedLoop(other.part.outline, Math.atan2(right[1], right[0]), origin);
}
