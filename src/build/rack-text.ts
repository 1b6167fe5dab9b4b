import { degrees, tidy } from '../base/numbers.js';
import { tolerance } from '../base/tolerance.js';
import type { RackAfter } from '../design/pieces/index.js';
import type { Rack, RackBend, RackStraight } from '../job/rack.js';

/** What is left is never said to be more than it is: lengths down to 0.1 mm, angles down to 0.01 deg. */
const down = (value: number, per: number): number => Math.floor(value * per + tolerance.samePoint) / per;

/** A rack as YAML that a person can read and change by hand: mm, degrees, guesses still marked as such. */
export function rackText({ rack, leastStraight, dropped }: RackAfter, from: string): string {
  const value = writer(rack);
  const bought = (item: RackBend | RackStraight): boolean => /^(bends|straights)\./.test(item.path);
  const bends = rack.bends.map((bend) => ({ bought: bought(bend), text: bendText(bend, value) }));
  const straights = rack.straights.map((straight) => ({
    bought: bought(straight),
    text: straightText(straight, value),
  }));
  const section = (name: string, lines: readonly string[]): string[] =>
    lines.length === 0 ? [`${name}: []`] : [`${name}:`, ...lines.map((line) => `  - ${line}`)];
  const { tube, saw } = rack;
  return [
    `# The rack after the cut list of ${from}. The rack that it was sawn from is as it was.`,
    `# Straights under ${tidy(leastStraight)} mm and bends that no piece can be sawn from are not kept (${dropped.length} here).`,
    '# Measure what is left before you rely on it: saws wander.',
    'units: mm',
    `tube: { od: ${value('tube.od', tidy(tube.od, 4))}, wall: ${value('tube.wall', tidy(tube.wall, 4))}, material: ${value('tube.material', JSON.stringify(tube.material))} }`,
    `saw: { kerf: ${value('saw.kerf', tidy(saw.kerf, 4))}, dress: ${value('saw.dress', tidy(saw.dress, 4))}, raw_trim: ${value('saw.raw_trim', tidy(saw.rawTrim, 4))} }`,
    ...section(
      'bends',
      bends.flatMap((one) => (one.bought ? [one.text] : [])),
    ),
    ...section(
      'straights',
      straights.flatMap((one) => (one.bought ? [one.text] : [])),
    ),
    ...section(
      'offcuts',
      [...bends, ...straights].flatMap((one) => (one.bought ? [] : [one.text])),
    ),
    '',
  ].join('\n');
}

type Value = (path: string, text: string) => string;

/** Writes a value as the rack had it: a guess stays a guess. */
const writer =
  (rack: Rack): Value =>
  (path, text) =>
    rack.guesses.some((guess) => guess.path === path) ? `{ value: ${text}, how: guessed }` : text;

const count = (quantity: number): string => (quantity === Infinity ? 'unlimited' : String(quantity));

const isLeft = (path: string): boolean => path.startsWith('left of ');

const priced = ({ path, price, quantity }: RackBend | RackStraight, value: Value): string =>
  `price: ${value(`${path}.price`, tidy(price, 4))}, quantity: ${value(`${path}.quantity`, count(quantity))} }` +
  (isLeft(path) ? ` # ${path}` : '');

function bendText(bend: RackBend, value: Value): string {
  const { path, clr, angle, legs } = bend;
  const left = isLeft(path);
  const length = (mm: number): string => tidy(left ? down(mm, 10) : mm, 4);
  const turn = left ? down(degrees(angle), 100) : degrees(angle);
  const ends = value(
    `${path}.legs`,
    `[${legs.map((leg, end) => value(`${path}.legs.${end}`, length(leg))).join(', ')}]`,
  );
  return `{ clr: ${value(`${path}.clr`, tidy(clr, 4))}, angle: ${value(`${path}.angle`, tidy(turn, 6))}, legs: ${ends}, ${priced(bend, value)}`;
}

function straightText(straight: RackStraight, value: Value): string {
  const { path, length } = straight;
  const mm = isLeft(path) ? down(length, 10) : length;
  return `{ length: ${value(`${path}.length`, tidy(mm, 4))}, ${priced(straight, value)}`;
}
