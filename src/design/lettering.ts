import { plus, times, turned, type Point } from '../base/points.js';
import type { Stroke } from '../geom/segments.js';

/*
 * Our own single-stroke letters for etching. Each is drawn on a grid 4 wide and 6 high: a pair of digits is a
 * point (x, y), a run of pairs one stroke, `/` lifts the torch. Straight strokes only, nothing closer than a
 * grid step, and no small closed rings, so that a plasma mark does not run together. Zero is struck through, Z
 * barred and one footed, so that none is read for O, 2 or I.
 */
const DRAWN: Readonly<Record<string, string>> = {
  A: '00 04 26 44 40 / 02 42',
  B: '00 06 36 45 44 33 42 41 30 00 / 03 33',
  C: '45 36 16 05 01 10 30 41',
  D: '00 06 26 44 42 20 00',
  E: '46 06 00 40 / 03 33',
  F: '46 06 00 / 03 33',
  G: '45 36 16 05 01 10 30 41 43 23',
  H: '00 06 / 40 46 / 03 43',
  I: '00 20 / 10 16 / 06 26',
  J: '46 41 30 10 01',
  K: '00 06 / 46 03 40',
  L: '06 00 40',
  M: '00 06 23 46 40',
  N: '00 06 40 46',
  O: '10 01 05 16 36 45 41 30 10',
  P: '00 06 36 45 44 33 03',
  Q: '10 01 05 16 36 45 41 30 10 / 22 40',
  R: '00 06 36 45 44 33 03 / 23 40',
  S: '45 36 16 05 04 13 33 42 41 30 10 01',
  T: '06 46 / 26 20',
  U: '06 01 10 30 41 46',
  V: '06 20 46',
  W: '06 00 23 40 46',
  X: '00 46 / 06 40',
  Y: '06 23 46 / 23 20',
  Z: '06 46 00 40 / 13 33',
  '0': '10 01 05 16 36 45 41 30 10 / 12 34',
  '1': '04 16 10 / 00 20',
  '2': '05 16 36 45 44 00 40',
  '3': '05 16 36 45 44 33 42 41 30 10 01 / 13 33',
  '4': '30 36 02 42',
  '5': '46 06 03 33 42 41 30 10 01',
  '6': '45 36 16 05 01 10 30 41 42 33 13 02',
  '7': '06 46 20',
  '8': '13 04 05 16 36 45 44 33 13 02 01 10 30 41 42 33',
  '9': '01 10 30 41 45 36 16 05 04 13 33 44',
  ' ': '',
  '-': '03 33',
  '.': '00 01',
  ',': '11 00',
  ':': '01 02 / 04 05',
  '/': '00 46',
  '+': '03 43 / 21 25',
  '(': '16 05 01 10',
  ')': '06 15 11 00',
  _: '00 40',
  '#': '10 16 / 30 36 / 02 42 / 04 44',
};
/** What stands for a character that has no drawing here. */
const BOX = '00 06 46 40 00';
const HIGH = 6;
const SPACE_WIDE = 2;
/** Between neighbouring characters, in grid steps. */
const BETWEEN = 2;

interface Glyph {
  readonly strokes: readonly Stroke[];
  readonly width: number;
}

function drawn(runs: string): Glyph {
  const strokes = runs
    .split('/')
    .map((run) => (run.match(/\d\d/g) ?? []).map((pair): Point => [Number(pair[0]), Number(pair[1])]))
    .filter((stroke) => stroke.length > 0);
  const width = strokes.length === 0 ? SPACE_WIDE : Math.max(...strokes.flat().map(([x]) => x));
  return { strokes, width };
}

const glyphs = new Map(Object.entries(DRAWN).map(([character, runs]) => [character, drawn(runs)]));
const box = drawn(BOX);

/** Folds accents off, lower case to capitals, dashes of any length to one. */
const folded = (text: string): string =>
  text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/[\p{Pd}\u2212]/gu, '-')
    .toUpperCase();

const glyphsOf = (text: string): readonly Glyph[] => [...folded(text)].map((one) => glyphs.get(one) ?? box);

/**
 * How wide a line of lettering is, mm, from the left edge of its first character to the right edge of its last.
 * @param height of a capital, mm
 */
export const letterWidth = (text: string, height: number): number => {
  const steps = glyphsOf(text).map((glyph) => glyph.width);
  return (steps.reduce((a, b) => a + b + BETWEEN, 0) - (steps.length > 0 ? BETWEEN : 0)) * (height / HIGH);
};

/**
 * A line of single-stroke lettering: its strokes run right from (0, 0) and up to `height`, mm.
 * A character with no drawing comes out as an empty box; nothing is refused.
 * @param height of a capital, mm
 */
export function letter(text: string, height: number): readonly Stroke[] {
  const step = height / HIGH;
  let x = 0;
  return glyphsOf(text).flatMap((glyph) => {
    const at: Point = [x, 0];
    x += glyph.width + BETWEEN;
    return glyph.strokes.map((stroke) => stroke.map((point) => times(plus(point, at), step)));
  });
}

/**
 * The same, its middle at `centre`, turned counter-clockwise about it.
 * @param turn rad
 */
export function letterCentred(text: string, height: number, centre: Point, turn = 0): readonly Stroke[] {
  const back: Point = [-letterWidth(text, height) / 2, -height / 2];
  return letter(text, height).map((stroke) =>
    stroke.map((point) => plus(turned(plus(point, back), turn), centre)),
  );
}

/**
 * A line of lettering bent round a circle, the letters' feet toward its centre, so that it reads clockwise.
 * @param radius of the circle through the middle of the letters' height, mm
 * @param middle where the middle of the line stands, rad counter-clockwise from the right
 */
export function letterRound(
  text: string,
  height: number,
  centre: Point,
  radius: number,
  middle: number,
): readonly Stroke[] {
  const step = height / HIGH;
  let along = -letterWidth(text, height) / 2;
  return glyphsOf(text).flatMap((glyph) => {
    const half = (glyph.width * step) / 2;
    const turn = middle - (along + half) / radius;
    along += (glyph.width + BETWEEN) * step;
    // Each letter stays flat, upright at its own place on the circle.
    return glyph.strokes.map((stroke) =>
      stroke.map(([x, y]) =>
        plus(turned([x * step - half, radius + y * step - height / 2], turn - Math.PI / 2), centre),
      ),
    );
  });
}
