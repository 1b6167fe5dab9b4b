import { times } from '../base/points.js';
import type { Loop, Region, Segment } from './segments.js';

/** Drawn at another size about the origin. Powers of two change no digit. */
const sized = (region: Region, k: number): Region =>
  region.map((loop): Loop =>
    loop.map((piece): Segment => {
      const ends = { from: times(piece.from, k), to: times(piece.to, k) };
      if (piece.kind === 'line') return { ...piece, ...ends };
      return { ...piece, ...ends, centre: times(piece.centre, k), radius: piece.radius * k };
    }),
  );

/**
 * Does work on regions, and where it fails once more at a quarter and at a sixteenth of the size. Edges that lie
 * apart by just the same-point tolerance can be taken for one at one place and for two at the next; drawn smaller
 * they are one. The result is drawn back to size, so it is out by at most 16 tolerances.
 * @param work gets the regions and the scale they are drawn at
 * @throws the first error, where all sizes fail
 */
export function orSmaller(
  regions: readonly Region[],
  work: (regions: readonly Region[], scale: number) => Region,
): Region {
  try {
    return work(regions, 1);
  } catch (first) {
    for (const scale of [1 / 4, 1 / 16]) {
      try {
        const small = regions.map((region) => sized(region, scale));
        return sized(work(small, scale), 1 / scale);
      } catch {
        continue;
      }
    }
    throw first;
  }
}
