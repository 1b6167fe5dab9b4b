import type { PlatePart } from '../../design/parts.js';
import type { Piece } from './dimensions.js';
import { coordinateText, type Feature } from './features.js';
import { drawnCircle, drawnCross, drawnLine, lines, type SheetPoint } from './pen.js';
import { widthOf, words, wrapped, type Words } from './words.js';

/** A block of the sheet under the view: drawn from its upper left corner, with the room it takes. */
export interface Panel extends Piece {
  readonly width: number;
  readonly height: number;
}

const TEXT = 3;
const ROW = 4.8;

/** The table of openings, holes and pockets. */
export function featureTable(features: readonly Feature[], [x, y]: SheetPoint): Panel {
  const head = ['tag', 'what', 'x', 'y', 'size', 'made'];
  const rows = features.map((feature) => [
    feature.tag,
    feature.name,
    coordinateText(feature.centre[0]),
    coordinateText(feature.centre[1]),
    feature.size,
    feature.made,
  ]);
  const toTheRight = new Set([2, 3]);
  const widths = head.map(
    (title, column) =>
      4 + Math.max(widthOf(title, TEXT, 'bold'), ...rows.map((row) => widthOf(row[column] ?? '', TEXT))),
  );
  const width = widths.reduce((sum, each) => sum + each, 0);
  const lineOf = (cells: readonly string[], line: number, weight: Words['weight']): readonly Words[] =>
    cells.map((text, column) => {
      const from = x + widths.slice(0, column).reduce((sum, each) => sum + each, 0);
      const right = toTheRight.has(column);
      const at = right ? from + (widths[column] ?? 0) - 2 : from + 2;
      return words(text, [at, y + ROW * (line + 1) - 1.4], TEXT, { align: right ? 'end' : 'start', weight });
    });
  const heights = [ROW, ...rows.map((_, i) => ROW * (i + 2))];
  return {
    width,
    height: ROW * (rows.length + 1),
    drawn: [
      ...heights.map((down, i) =>
        drawnLine([x, y + down], [x + width, y + down], i === 0 ? lines.rule : lines.thin),
      ),
    ],
    words: [...lineOf(head, 0, 'bold'), ...rows.flatMap((row, i) => lineOf(row, i + 1, 'normal'))],
  };
}

/** Length of the bar, mm. */
const SCALE_BAR = 100;

/**
 * The bar that proves the print's scale: one straight line, its words beside it.
 * @param scale how many mm of paper a mm of the part takes; below 1 the bar is as long as the part's 100 mm
 */
export function scaleBar([x, y]: SheetPoint, scale = 1): Panel {
  if (scale !== 1) return smallBar([x, y], scale);
  return {
    width: SCALE_BAR,
    height: 13,
    drawn: [drawnLine([x, y + 1], [x + SCALE_BAR, y + 1], { ...lines.cut, width: 0.7 }, 'scale-bar')],
    words: [
      words('100 mm: print at 100 %, measure this bar.', [x, y + 6], TEXT, { weight: 'bold' }),
      words('If it is not 100 mm long, the sheet is no template.', [x, y + 10.5], TEXT),
    ],
  };
}

/** The bar of a drawing that is no template. */
function smallBar([x, y]: SheetPoint, scale: number): Panel {
  const style = { ...lines.cut, width: 0.7 };
  const to = x + SCALE_BAR * scale;
  const tick = (at: number): string => drawnLine([at, y - 0.5], [at, y + 2.5], style);
  return {
    width: SCALE_BAR,
    height: 8,
    drawn: [drawnLine([x, y + 1], [to, y + 1], style, 'scale-bar'), tick(x), tick(to)],
    words: [words('100 mm of the header', [to + 3, y + 2.2], TEXT, { weight: 'bold' })],
  };
}

/** What the kinds of lines mean: only those that are on the sheet. */
export function legend(
  part: PlatePart,
  features: readonly Feature[],
  datum: boolean,
  [x, y]: SheetPoint,
): Panel {
  const has = (kind: Feature['kind']): boolean => features.some((feature) => feature.kind === kind);
  const zero = part.marks.some(({ name }) => name.startsWith('clock zero '));
  const solid = { ...lines.drilled, dashes: undefined };
  const level = (down: number): readonly [SheetPoint, SheetPoint] => [
    [x, down],
    [x + 12, down],
  ];
  const entries: readonly (readonly [boolean, (down: number) => string, string])[] = [
    [true, (down) => drawnLine(...level(down), lines.cut), 'cut'],
    [part.marks.length > 0, (down) => drawnLine(...level(down), lines.etched), 'etched, not cut'],
    [
      zero,
      (down) => drawnLine([x + 6, down - 1.7], [x + 6, down + 1.7], lines.etched),
      "short tick by a port: its tube's clock turns count from here",
    ],
    [
      has('drilled hole') || has('filed slot'),
      (down) => drawnCircle([x + 6, down], 1.9, lines.drilled) + drawnCross([x + 6, down], 1.1, solid),
      'drilled by hand, not cut: the cut file has a point',
    ],
    [has('pocket'), (down) => drawnLine(...level(down), lines.pocket), 'edge of a pocket from this side'],
    [
      datum,
      (down) => drawnCircle([x + 6, down], 1.2, lines.rule) + drawnCross([x + 6, down], 1.9, lines.rule),
      'x to the right and y up count from here',
    ],
  ];
  const shown = entries.filter(([there]) => there);
  return {
    width: Math.max(...shown.map(([, , text]) => 16 + widthOf(text, TEXT))),
    height: ROW * shown.length,
    drawn: shown.map(([, draw], i) => draw(y + ROW * i + 2)),
    words: shown.map(([, , text], i) => words(text, [x + 16, y + ROW * i + 3.1], TEXT)),
  };
}

/** What to do at the bench and the cautions, each from a new line with a dash. */
export function remarksPanel(remarks: readonly string[], room: number, [x, y]: SheetPoint): Panel {
  const size = 3.2;
  const found: Words[] = [];
  let down = y + 4;
  for (const remark of remarks) {
    wrapped(remark, size, room - 5).forEach((line, i) => {
      if (i === 0) found.push(words('–', [x, down], size));
      found.push(words(line, [x + 5, down], size));
      down += 4.6;
    });
    down += 0.8;
  }
  return { width: room, height: down - y - 3, drawn: [], words: found };
}
