import { MOST_BENDS, type Way } from './candidate.js';

/*
 * Ways of one port and slot packed into one array of numbers, one after the other: a pool holds thousands, and
 * they go from thread to thread. A way takes
 *   0 bends   1 welds   2 length, mm   then the CLR of each bend, then its points
 */
export type PackedWays = Float64Array;

const HEAD = 3;
/** How many numbers the way at `o` takes: where the next begins, seen from it. */
export const roomAt = (ways: PackedWays, o: number): number => roomFor(ways[o] as number);
export const weldsAt = (ways: PackedWays, o: number): number => ways[o + 1] as number;
export const lengthAt = (ways: PackedWays, o: number): number => ways[o + 2] as number;

const roomFor = (bends: number): number => HEAD + bends + 3 * (bends + 2);

/** Packs ways of one port and slot. */
export function packWays(ways: readonly Way[]): PackedWays {
  const room = ways.reduce((sum, { clrs }) => sum + roomFor(clrs.length), 0);
  // Shared memory is not copied on its way to another thread.
  const packed = new Float64Array(new SharedArrayBuffer(room * Float64Array.BYTES_PER_ELEMENT));
  let o = 0;
  for (const { clrs, points, welds, length } of ways) {
    const bends = clrs.length;
    packed[o] = bends;
    packed[o + 1] = welds;
    packed[o + 2] = length;
    packed.set(clrs, o + HEAD);
    packed.set(points, o + HEAD + bends);
    o += roomFor(bends);
  }
  return packed;
}

const clrsOf = Array.from({ length: MOST_BENDS + 1 }, (_, bends) => new Array<number>(bends).fill(0));

/** Writes the points of the way at `o` into `points`; its radii are in a list that the next call uses again. */
export function readWay(ways: PackedWays, o: number, points: Float64Array): readonly number[] {
  const bends = ways[o] as number;
  const clrs = clrsOf[bends] as number[];
  for (let i = 0; i < bends; i++) clrs[i] = ways[o + HEAD + i] as number;
  const from = o + HEAD + bends;
  for (let i = 3 * (bends + 2) - 1; i >= 0; i--) points[i] = ways[from + i] as number;
  return clrs;
}

/** The way at `o`, as one of its own. */
export function wayAt(ways: PackedWays, o: number, start: number, slot: number): Way {
  const bends = ways[o] as number;
  const at = o + HEAD + bends;
  return {
    start,
    slot,
    points: ways.slice(at, o + roomFor(bends)),
    clrs: [...ways.subarray(o + HEAD, at)],
    length: lengthAt(ways, o),
    welds: weldsAt(ways, o),
  };
}
