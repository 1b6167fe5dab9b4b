/**
 * How many slips of the keyboard lie between two words: letters left out, put in, changed, or two
 * neighbours swapped (optimal string alignment distance).
 *
 * @see Damerau 1964, "A technique for computer detection and correction of spelling errors"
 */
export function slipsBetween(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let least = Math.min((row[j - 1] ?? 0) + 1, (last[j] ?? 0) + 1, (last[j - 1] ?? 0) + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        least = Math.min(least, (before[j - 2] ?? 0) + 1);
      }
      row.push(least);
    }
    before = last;
    last = row;
  }
  return last[b.length] ?? 0;
}

/** Spelling apart: `Tube OD` and `tube-od` are `tube_od`. */
const bare = (word: string): string => word.toLowerCase().replace(/[\s_-]+/g, '_');

/**
 * The one of the known words that was probably meant, or undefined where none is near: at most a third
 * of its letters may be wrong. Of equally near words the first in the list is taken.
 */
export function suggest(word: string, known: readonly string[]): string | undefined {
  const asked = bare(word).slice(0, 60);
  let best: string | undefined;
  let fewest = Infinity;
  for (const candidate of known) {
    const slips = slipsBetween(asked, bare(candidate));
    const allowed = Math.floor(Math.max(asked.length, candidate.length) / 3);
    if (slips <= allowed && slips < fewest) {
      best = candidate;
      fewest = slips;
    }
  }
  // A word that only lost its head or tail: `thick` for `thickness`.
  if (best === undefined && asked.length >= 3) {
    best = known.find((k) => bare(k).startsWith(asked) || bare(k).endsWith(asked));
  }
  return best;
}

/** ` Did you mean "pitch"?`, or nothing. */
export function didYouMean(word: string, known: readonly string[]): string {
  const meant = suggest(word, known);
  return meant === undefined ? '' : ` Did you mean "${meant}"?`;
}
