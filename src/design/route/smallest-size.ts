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

/** Where more may also hinder: the first size tried, mm or rad in steps, and how it grows. */
const FIRST_STEPS = 8;
const GROWTH = 4;
/** Proofs are told apart by this (mm). */
const PROOF_STEP = 1;
/** Of what rounding leaves over where steps are counted. */
const COUNTING = 1e-9;

const wholeSteps = (size: number, step: number): number => Math.floor(size / step + COUNTING) * step;

/**
 * Some size of a change with which routes are found: the most where more can only ease, else the first of
 * growing sizes. Undefined where none was found.
 * @param tooLittle a size that is proved not to do
 */
export function firstTried(
  { change, step, most, onlyEases }: PossibleChange,
  tooLittle: number,
  { tryOf, spent }: Trying,
): Tried {
  const largest = wholeSteps(most, step);
  if (onlyEases) return largest > tooLittle && !spent() ? tryOf(change, largest) : undefined;
  for (let size = Math.min(largest, FIRST_STEPS * step); !spent(); size = Math.min(largest, GROWTH * size)) {
    const tried = tryOf(change, size);
    if (tried !== undefined || size >= largest) return tried;
  }
  return undefined;
}

/**
 * A size of a change made as small as it still does: between what is proved too little and what was found to
 * do, by halving the ratio.
 * @param worth above this nothing is gained: where this size does not do, the known one is kept
 */
export function smallestTried(
  { change, step }: PossibleChange,
  known: { readonly tried: NonNullable<Tried>; readonly tooLittle: number },
  { tryOf, spent, near }: Trying,
  worth = Infinity,
): NonNullable<Tried> {
  let best = known.tried;
  let low = known.tooLittle;
  if (worth < best.size && !spent()) {
    const tried = wholeSteps(worth, step) > low ? tryOf(change, wholeSteps(worth, step)) : undefined;
    if (tried === undefined) return best;
    best = tried;
  }
  while (!spent()) {
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
  { change, most }: PossibleChange,
  isProved: (change: Change, size: number) => boolean,
): number {
  let [low, high] = [0, wholeSteps(most, PROOF_STEP)];
  if (!isProved(change, 0)) return 0;
  if (isProved(change, high)) return high;
  while (high - low > PROOF_STEP) {
    const middle = wholeSteps((low + high) / 2, PROOF_STEP);
    if (isProved(change, middle)) low = middle;
    else high = middle;
  }
  return low;
}
