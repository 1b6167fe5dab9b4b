import { type Random, mixSeed, randomFrom } from '../../src/base/random.js';
import { inchJob, wholeJob } from './jobs.js';

/** A place in the text where a key or a value stands. */
interface Found {
  readonly start: number;
  readonly text: string;
}

const all = (text: string, what: RegExp): Found[] =>
  [...text.matchAll(what)].map((m) => ({
    start: m.index + m[0].length - (m[1] ?? '').length,
    text: m[1] ?? '',
  }));

/** Keys, and numbers that stand as a value (not those inside words). Places may be negative or zero. */
const keys = (text: string): Found[] => all(text, /(?:^|[{,\n] *)([a-z_]{3,})(?=: )/g).map((f) => ({ ...f }));
const sizes = (text: string): Found[] =>
  all(
    text,
    /(?:thickness|width|height|diameter|od|wall|pitch|depth|length|edge|boss|fillet|stub|hole|count|cylinders): (\d[\d.]*)(?=[ ,}\n])/g,
  );
const values = (text: string): Found[] => all(text, /: (\d[\d.]*)(?=[ ,}\n])/g);

const replace = (text: string, at: Found, by: string): string =>
  text.slice(0, at.start) + by + text.slice(at.start + at.text.length);

/** Slips of hand and measure that no job survives. */
const slips: Record<string, (text: string, random: Random) => string> = {
  'a misspelt key': (text, random) => {
    const key = random.pick(keys(text));
    const i = random.whole(1, key.text.length - 1);
    const swapped =
      key.text.slice(0, i - 1) + (key.text[i] ?? '') + (key.text[i - 1] ?? '') + key.text.slice(i + 1);
    return replace(text, key, swapped === key.text ? `${key.text}q` : swapped);
  },
  'a word for a number': (text, random) =>
    replace(text, random.pick(values(text)), random.pick(['wide', '[1, 2]', '{ a: 1 }', 'true'])),
  'a negative size': (text, random) => {
    const at = random.pick(sizes(text));
    return replace(text, at, `-${at.text}`);
  },
  'no number': (text, random) =>
    replace(text, random.pick(values(text)), random.pick(['.nan', '.inf', '-.inf'])),
  'a huge size': (text, random) =>
    replace(text, random.pick(sizes(text)), random.pick(['1e9', '123456', '1 km'])),
  'a decimal comma': (text, random) => replace(text, random.pick(sizes(text)), '"12,5"'),
  'an unknown unit': (text, random) => replace(text, random.pick(values(text)), '7 cubits'),
  'a lost value': (text, random) => replace(text, random.pick(sizes(text)), ''),
  'a lost line': (text, random) =>
    text.replace(random.pick(['job: ', '  row: {', '  thread: ', 'tube: {', '  at: { right']), '#'),
  'swapped measures': (text, random) =>
    random.pick([
      (t: string) =>
        t
          .replace('od: 42.4, wall: 1.6', 'od: 1.6, wall: 42.4')
          .replace('od: 1-5/8, wall: 16 ga', 'od: 16 ga, wall: 1-5/8'),
      (t: string) =>
        t
          .replace('width: 38, height: 34, corner: 12', 'width: 12, height: 34, corner: 38')
          .replace('count: 4, pitch: 92', 'count: 92, pitch: 4')
          .replace('diameter: 1-1/2', 'diameter: .5/1-1'),
      (t: string) => t.replace('thread: M8', 'thread: 8M').replace('thread: 5/16', 'thread: 16/5'),
    ])(text),
  'a key twice': (text, random) => {
    const key = random.pick(
      keys(text).filter(
        (k) =>
          text[k.start - 1] !== '\n' &&
          text[k.start - 1] === ' ' &&
          /[{,] $/.test(text.slice(k.start - 2, k.start)),
      ),
    );
    return text.slice(0, key.start) + `${key.text}: 1, ` + text.slice(key.start);
  },
  'a lost bracket': (text, random) => replace(text, random.pick(all(text, /([}\]])/g)), ''),
};

/** A job broken by one seeded slip. */
export interface BrokenJob {
  readonly name: string;
  readonly good: string;
  readonly text: string;
}

/** The n-th broken job: slips in turn, one in five in inches. */
export function brokenJob(n: number): BrokenJob {
  const names = Object.keys(slips);
  const random = randomFrom(mixSeed(7411, n));
  const name = names[n % names.length] ?? '';
  const good = n % 5 === 4 && name !== 'a lost line' && name !== 'a negative size' ? inchJob : wholeJob;
  return { name, good, text: slips[name]?.(good, random) ?? good };
}
