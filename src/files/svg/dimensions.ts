import { tidy } from '../../base/numbers.js';
import { drawnLine, ink, lines, mm, type SheetPoint } from './pen.js';
import { widthOf, words, type Words } from './words.js';

/** What goes on a sheet: lines and areas as SVG, and words. */
export interface Piece {
  readonly drawn: readonly string[];
  readonly words: readonly Words[];
}

/** Height of figures in dimensions, mm. */
const FIGURES = 3.2;
const ARROW = 2.6;
const ARROW_HALF = 0.55;
/** How far an extension line goes past the dimension line, and how far it stays off the part, mm. */
const PAST = 1.2;
const OFF = 1.5;

/**
 * A level dimension over a span: extension lines from `from`, the dimension line at `at`, the figure above it.
 * Its figure is the span, or what is said where the drawing is smaller than the part.
 * A span too narrow for figure and arrows gets its figure only where it fits, else none: the table has it.
 */
export function levelDimension(
  left: number,
  right: number,
  from: number,
  at: number,
  text = tidy(right - left, 2),
): Piece {
  const fits = widthOf(text, FIGURES) + 1 < right - left;
  const side = Math.sign(at - from);
  return {
    drawn: [
      ...[left, right].map((x) => drawnLine([x, from + side * OFF], [x, at + side * PAST], lines.thin)),
      drawnLine([left, at], [right, at], lines.thin),
      ...(right - left > 3 * ARROW ? [arrow([left, at], -1, 0), arrow([right, at], 1, 0)] : []),
    ],
    words: fits ? [words(text, [(left + right) / 2, at - 1], FIGURES, { align: 'middle' })] : [],
  };
}

/** An upright dimension, read from the right. */
export function uprightDimension(
  top: number,
  bottom: number,
  from: number,
  at: number,
  text = tidy(bottom - top, 2),
): Piece {
  const side = Math.sign(at - from);
  const upright = { align: 'middle', upright: true } as const;
  return {
    drawn: [
      ...[top, bottom].map((y) => drawnLine([from + side * OFF, y], [at + side * PAST, y], lines.thin)),
      drawnLine([at, top], [at, bottom], lines.thin),
      ...(bottom - top > 3 * ARROW ? [arrow([at, top], 0, -1), arrow([at, bottom], 0, 1)] : []),
    ],
    words: [words(text, [at - 1, (top + bottom) / 2], FIGURES, upright)],
  };
}

/** A filled head whose tip is at a place and points along (x, y). */
function arrow([x, y]: SheetPoint, dx: number, dy: number): string {
  const [backX, backY] = [x - dx * ARROW, y - dy * ARROW];
  const corners: readonly SheetPoint[] = [
    [x, y],
    [backX - dy * ARROW_HALF, backY + dx * ARROW_HALF],
    [backX + dy * ARROW_HALF, backY - dx * ARROW_HALF],
  ];
  return `<polygon points="${corners.map((at) => at.map(mm).join()).join(' ')}" fill="${ink.grey}"/>`;
}

/** Several pieces as one. */
export const together = (...pieces: readonly Piece[]): Piece => ({
  drawn: pieces.flatMap((piece) => piece.drawn),
  words: pieces.flatMap((piece) => piece.words),
});
