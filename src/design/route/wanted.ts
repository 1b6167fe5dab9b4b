/** Whether a route of a length (mm) and weld count could still better what is known. */
export type Wanted = (length: number, welds: number) => boolean;

/** Welds of the dearest primary looked at. */
const DEAREST = 6;

/** What `Wanted` goes by for one port and slot: numbers only, to be handed from thread to thread. */
export interface WantedBy {
  /** What the set as a whole must come down to for a route to be of use. */
  readonly aim: number;
  /** Welds and length (mm) of the best set known; undefined while there is none. */
  readonly best: { readonly welds: number; readonly length: number } | undefined;
  /** Fewest welds of the other primaries, by bin of lengths. */
  readonly rest: BinnedWelds;
}

/** Welds by bin of lengths: where the first bin begins and how wide each is (mm). */
export interface BinnedWelds {
  readonly from: number;
  readonly width: number;
  readonly welds: readonly number[];
}

/** The bin of a length; lengths beyond either end fall into the last bin there. */
export const binOf = ({ from, width, welds }: BinnedWelds, length: number): number =>
  Math.max(0, Math.min(welds.length - 1, Math.floor((length - from) / width)));

/** Whether routes are wanted: the best of what may come of them has no more welds than is aimed at. */
export const wantedBy =
  ({ aim, best, rest }: WantedBy): Wanted =>
  (length, welds) => {
    if (welds > DEAREST) return false;
    if (best === undefined) return true;
    const goal = Math.min(aim, length < best.length - 0.5 ? best.welds : best.welds - 1);
    return welds + (rest.welds[binOf(rest, length)] as number) <= goal;
  };
