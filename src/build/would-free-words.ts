import { degrees, tidy } from '../base/numbers.js';
import type { Vector } from '../base/vectors.js';
import type { Problem } from '../base/problems.js';
import type { WouldFree } from '../design/route/index.js';

/** Sides of a box, by axis: at its least and its greatest corner. */
const sides = [
  { from: 'its left side', to: 'its right side', word: 'right' },
  { from: 'its bottom', to: 'its top', word: 'up' },
  { from: 'its inner side', to: 'its outer side', word: 'out' },
] as const;
/** Which way a collector is moved, by axis. */
const ways = [
  { less: 'to the left', more: 'to the right' },
  { less: 'lower', more: 'higher' },
  { less: 'further in', more: 'further out' },
] as const;

const shown = (value: number | Vector): string =>
  typeof value === 'number' ? tidy(value, 1) : `[${value.map((x) => tidy(x, 1)).join(', ')}]`;

/** One change in the words of the bench: how much, and the number to write. */
export function changeWords({ change, size, was, now, tooLittle }: WouldFree): string {
  const mm = `${tidy(size, 1)} mm`;
  const instead = `${shown(now)} instead of ${shown(was)}`;
  const proved = tooLittle > 0 ? `; ${tidy(tooLittle, 0)} mm is proved too little` : '';
  const tooShort = tooLittle > 0 ? `; ${tidy(Number(was) + tooLittle, 0)} mm is proved too short` : '';
  switch (change.kind) {
    case 'face': {
      const { [change.side]: side, word } = sides[change.axis];
      return `${change.name} ${mm} smaller at ${side} (${word} ${instead}${proved})`;
    }
    case 'diameter':
      return `${change.name} ${mm} thinner (diameter ${instead}${proved})`;
    case 'plane':
      return `${change.name} ${mm} further back (at ${instead}${proved})`;
    case 'clear':
      return `${mm} less clearance to ${change.name} (clear ${instead}${proved})`;
    case 'collector moved': {
      const { less, more } = ways[change.axis];
      return `the collector ${mm} ${change.way > 0 ? more : less} (at ${instead})`;
    }
    case 'collector turned':
      return `the collector turned by ${tidy(degrees(size), 0)} deg (clocking ${tidy(degrees(Number(now)), 1)})`;
    case 'longer':
      return `primaries up to ${mm} longer (length to ${instead}${tooShort})`;
    case 'shorter':
      return `primaries down to ${mm} shorter (length from ${instead}${proved})`;
    case 'stub':
      return `a first straight ${mm} shorter (stub ${instead}${proved})`;
    case 'last straight':
      return `a last straight ${mm} shorter (last_straight ${instead}${proved})`;
  }
}

/** What was tried, and let routes through: a note beside the error. */
export function wouldFreeNote(tried: readonly WouldFree[], without: readonly string[]): Problem[] {
  const named = tried.map(({ change }) => ('name' in change ? change.name : ''));
  // That something need only be smaller says more than that it is in the way.
  const gone = without.filter((name) => !named.includes(name)).map((name) => `${name} not there at all`);
  const all = [...tried.map(changeWords), ...gone];
  if (all.length === 0) return [];
  return [
    {
      code: 'route/would-free',
      severity: 'note',
      what: `tried one by one, and routes were found with: ${all.join('; or ')}`,
      why: 'each was searched quickly: a smaller change may do as well, and the answer may have more welds',
      fix: 'make the one that the car allows, and route again; a keep-out only where the thing itself is smaller, can move, or may stand nearer a hot tube',
    },
  ];
}
