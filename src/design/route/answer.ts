import type { Candidate } from './candidate.js';

/** A full set of primaries that has been proved clear. */
export interface Answer {
  /** By primary. */
  readonly routes: readonly Candidate[];
  /** Common length, mm. */
  readonly length: number;
  /** Sum over the primaries, from the rack. */
  readonly welds: number;
  /** Proven least spare (mm over what is asked). */
  readonly spare: number;
}

/** Whether an answer of so many welds and such a length would better one: fewer welds, then the shorter. */
export const wouldBetter = (best: Answer | undefined, welds: number, length: number): boolean =>
  best === undefined || welds < best.welds || (welds === best.welds && length < best.length - 0.01);
