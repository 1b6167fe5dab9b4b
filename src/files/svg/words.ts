import { escaped, ink, mm, type SheetPoint } from './pen.js';

/** A line of words on the sheet. */
export interface Words {
  readonly text: string;
  /** Left, middle or right end of the base line. */
  readonly at: SheetPoint;
  /** Height of the letters' body, mm. */
  readonly size: number;
  readonly align: 'start' | 'middle' | 'end';
  readonly weight: 'normal' | 'bold';
  readonly colour: string;
  /** Read from below or, turned a quarter to the left, from the right. */
  readonly upright: boolean;
}

export function words(text: string, at: SheetPoint, size: number, more: Partial<Words> = {}): Words {
  return { text, at, size, align: 'start', weight: 'normal', colour: ink.black, upright: false, ...more };
}

/**
 * Widths of characters as shares of the size. The sheet names no font, so these are those of a wide one
 * (DejaVu Sans, measured): other sans-serif fonts take less room.
 */
const narrow = new Set([..."iljI.,:;'|!()[]/ -"]);
const wide = new Set([...'mwMW%@']);

/** The room a line of words takes at the most, mm. */
export function widthOf(text: string, size: number, weight: Words['weight'] = 'normal'): number {
  let shares = 0;
  for (const letter of text) {
    if (narrow.has(letter)) shares += 0.4;
    else if (wide.has(letter)) shares += 1;
    else shares += letter >= 'A' && letter <= 'Z' ? 0.75 : 0.64;
  }
  return shares * size * (weight === 'bold' ? 1.12 : 1);
}

/** How far letters stand above the base line and hang below it, as shares of the size. */
const ABOVE = 0.76;
const BELOW = 0.24;

/** Words whose middle stands at a place. */
export const wordsAbout = (
  text: string,
  [x, y]: SheetPoint,
  size: number,
  more: Partial<Words> = {},
): Words => words(text, [x, y + ((ABOVE - BELOW) / 2) * size], size, { align: 'middle', ...more });

/** Breaks a text into lines no wider than some room. */
export const wrapped = (text: string, size: number, room: number): readonly string[] =>
  filled(text.split(/\s+/), ' ', size, room);

/** Fills lines no wider than some room with parts that are not broken themselves. */
export function filled(
  parts: readonly string[],
  between: string,
  size: number,
  room: number,
): readonly string[] {
  const found: string[] = [];
  let line = '';
  for (const part of parts) {
    const longer = line === '' ? part : `${line}${between}${part}`;
    if (line !== '' && widthOf(longer, size) > room) {
      found.push(line);
      line = part;
    } else line = longer;
  }
  return line === '' ? found : [...found, line];
}

/** The words as an SVG element. */
export function drawnWords({ text, at, size, align, weight, colour, upright }: Words): string {
  const place = upright
    ? `transform="translate(${mm(at[0])} ${mm(at[1])}) rotate(-90)"`
    : `x="${mm(at[0])}" y="${mm(at[1])}"`;
  const bold = weight === 'bold' ? ' font-weight="bold"' : '';
  const anchor = align === 'start' ? '' : ` text-anchor="${align}"`;
  const fill = colour === ink.black ? '' : ` fill="${colour}"`;
  return `<text ${place} font-size="${mm(size)}"${bold}${anchor}${fill}>${escaped(text)}</text>`;
}
