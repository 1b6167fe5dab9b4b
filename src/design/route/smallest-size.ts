import type { Change, PossibleChange } from './possible-changes.js';

/** What came of one size of a change: the common length of the routes found; undefined where none were. */
export type Tried = { readonly size: number; readonly length: number } | undefined;

/** How sizes are tried. */
interface Trying {
  readonly tryOf: (change: Change, size: number) => Tried;
  /** Whether no more may be tried. */
  readonly spent: () => boolean;
  /** Near enough the smallest once a size less by this share of itself has failed. */
  readonly near: number;
}

/** Where more may also hinder, the first size tried (in steps); doubled each time. */
const FIRST_STEPS = 2;
/** Proofs are told apart by this (mm). */
const PROOF_STEP = 1;
/** Of what rounding leaves over where steps are counted. */
const COUNTING = 1e-9;

const wholeSteps = (size: number, step: number): number => Math.floor(size / step + COUNTING) * step;

/**
 * The smallest size of a change with which routes are found, between what is known not to do and `most`;
 * undefined where none was found. Where more can only ease, the most is tried first and halved from there;
 * else sizes grow.
 * @param low a size that does not do
 * @param known a size that does, to be made smaller
 */
export function smallestTried(
  { change, step, onlyEases }: PossibleChange,
  most: number,
  low: number,
  { tryOf, spent, near }: Trying,
  known?: NonNullable<Tried>,
): Tried {
  const largest = wholeSteps(most, step);
  let best: Tried = known;
  if (best === undefined && onlyEases && largest > low && !spent()) best = tryOf(change, largest);
  if (best === undefined && !onlyEases)
    for (let size = FIRST_STEPS * step; size <= largest && best === undefined && !spent(); size *= 2) {
      best = tryOf(change, size);
      if (best === undefined) low = size;
    }
  while (best !== undefined && !spent()) {
    const { size: high } = best;
    if (high - low <= Math.max(step, near * high) + COUNTING) break;
    // Between on a scale of ratios: sizes of 5 and 80 are far apart, 65 and 80 are not.
    const between = Math.sqrt(Math.max(low, step / 2) * high);
    const size = Math.min(high - step, Math.max(wholeSteps(low, step) + step, wholeSteps(between, step)));
    const tried = tryOf(change, size);
    if (tried === undefined) low = size;
    else best = tried;
  }
  return best;
}

/**
 * The largest whole millimetre of a change that only eases up to which a proof holds that there is no answer;
 * 0 where none does. A proof for one size holds for every smaller one: all that is allowed then is allowed here.
 */
export function proofReaches(
  { change }: PossibleChange,
  most: number,
  isProved: (change: Change, size: number) => boolean,
): number {
  let [low, high] = [0, Math.floor(most / PROOF_STEP) * PROOF_STEP];
  if (!isProved(change, 0)) return 0;
  if (isProved(change, high)) return high;
  while (high - low > PROOF_STEP) {
    const middle = Math.round((low + high) / 2 / PROOF_STEP) * PROOF_STEP;
    if (isProved(change, middle)) low = middle;
    else high = middle;
  }
  return low;
}
