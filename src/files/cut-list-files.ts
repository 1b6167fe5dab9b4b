import { degrees } from '../base/numbers.js';
import {
  bendTableOf,
  cutListRecord,
  type CutFigures,
  type CutList,
  type PieceRow,
} from '../design/pieces/index.js';
import type { CentreLineRow } from '../geom/centre-line.js';
import type { ShopSpec } from '../job/shop.js';
import { writeCsv, type Cell } from './csv.js';
import { figuresRecord, weldsCsv } from './cut-figures-files.js';

/** A record that is no part: its name and text. */
export interface RecordFile {
  readonly path: string;
  readonly bytes: string;
}

/** The cut list as files: a record for other programs, and tables for the bench and the order. */
export function cutListFiles(
  list: CutList,
  figures: CutFigures,
  shop: ShopSpec,
  rows: ReadonlyMap<string, readonly CentreLineRow[]>,
): readonly RecordFile[] {
  const record = { ...cutListRecord(list), ...figuresRecord(figures, shop) };
  return [
    { path: 'cut-list.json', bytes: JSON.stringify(record, null, 2) + '\n' },
    { path: 'cut-list.csv', bytes: piecesCsv(list) },
    { path: 'weld-table.csv', bytes: weldsCsv(list, figures, shop) },
    { path: 'buy-list.csv', bytes: buyCsv(list) },
    { path: 'bend-table.csv', bytes: bendCsv(rows) },
  ];
}

const HEADS = [
  'piece',
  'stock',
  'stock end',
  'CLR mm',
  'angle deg',
  'leg up mm',
  'leg down mm',
  'length mm',
  'clock deg',
  'clock mark mm round the tube',
  'cut: from end',
  'cut: deg from tangent point',
  'cut: outside mm from tangent point',
  'cut: inside mm from tangent point',
  'cut: outside mm from end sawn square',
  'cut: inside mm from end sawn square',
  'first cut leans deg',
  'first cut: long side at clock deg',
  'weld up',
  'weld down',
  'runs backwards',
  'mass kg',
];

/** One line a cut: a piece with two cuts in its arc has two. */
function piecesCsv(list: CutList): string {
  const lines = list.pieces.flatMap((piece): Cell[][] => {
    if (piece.kind === 'straight') return [pieceCells(piece)];
    const marks = piece.marks.length === 0 ? [undefined] : piece.marks;
    return marks.map((mark) =>
      pieceCells(piece, [
        mark?.from,
        mark && degrees(mark.angle),
        mark?.outside,
        mark?.inside,
        mark?.fromSawnEnd?.outside,
        mark?.fromSawnEnd?.inside,
      ]),
    );
  });
  // A column more only where pieces were corrected at the bench.
  if (list.pieces.every(({ asCut }) => asCut === undefined)) return writeCsv(HEADS, lines);
  const asCut = new Map(list.pieces.map((piece) => [piece.id, piece.asCut]));
  return writeCsv(
    [...HEADS, 'as cut'],
    lines.map((line) => [...line, asCut.get(String(line[0]))]),
  );
}

function pieceCells(piece: PieceRow, marks: readonly Cell[] = Array<Cell>(6).fill(undefined)): Cell[] {
  const bend = piece.kind === 'bend' ? piece : undefined;
  return [
    piece.id,
    piece.stock,
    piece.end,
    bend?.clr,
    bend && degrees(bend.angle),
    bend?.legUp,
    bend?.legDown,
    piece.length,
    bend && degrees(bend.clock),
    bend?.clockMark,
    ...marks,
    piece.face && degrees(piece.face.lean),
    piece.face && degrees(piece.face.toward),
    piece.weldUp,
    piece.weldDown,
    bend?.reversed,
    piece.mass,
  ];
}

const buyCsv = (list: CutList): string =>
  writeCsv(
    ['rack', 'what', 'count', 'price each', 'price'],
    list.buy.map(({ rack, count, price }) => {
      const item = list.stock.find((each) => each.rack === rack);
      const what =
        item?.kind === 'bend'
          ? `bend CLR ${item.clr} ${degrees(item.angle).toFixed(1)} deg`
          : `straight ${item?.length ?? ''} mm`;
      return [rack, what, count, price, count * price];
    }),
  );

/** Length, rotation and angle per bend, as a bender is set: one line a bend, the tail on a line of its own. */
const bendCsv = (routes: ReadonlyMap<string, readonly CentreLineRow[]>): string =>
  writeCsv(
    ['primary', 'bend', 'length mm', 'rotation deg', 'angle deg', 'CLR mm'],
    [...routes].flatMap(([id, rows]): Cell[][] => {
      const table = bendTableOf(rows);
      return [
        ...table.rows.map((row, i) => [
          id,
          i + 1,
          row.length,
          degrees(row.rotation),
          degrees(row.angle),
          row.clr,
        ]),
        [id, 'tail', table.tail],
      ];
    }),
  );
