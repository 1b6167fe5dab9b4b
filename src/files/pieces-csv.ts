import { degrees } from '../base/numbers.js';
import {
  onTape,
  stockFrom,
  tapeMarks,
  type CutList,
  type PieceRow,
  type TapeMarks,
} from '../design/pieces/index.js';
import type { Tape } from '../job/shop.js';
import { writeCsv, type Cell } from './csv.js';
import { tapeCell } from './tape-cell.js';

/** Lengths are in the unit of the tape, which stands in the heads. */
const heads = (unit: string): readonly string[] =>
  [
    'piece',
    'stock',
    'stock from',
    'stock end',
    'CLR mm',
    'angle deg',
    'leg up mm',
    'leg down mm',
    'length mm',
    'clock deg',
    'clock mark mm round the tube',
    'saw square: leg up mm',
    'saw square: leg down mm',
    'saw square: length mm',
    'off raw leg A mm',
    'off raw leg B mm',
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
    'gas from B to A',
    'mass kg',
  ].map((head) => head.replace(/\bmm\b/, unit));

/**
 * The pieces for the bench, one line a cut: a piece with two cuts in its arc has two. Lengths stand as a tape
 * shows them; the exact ones are in the record. Beside the name of the stock stands where it comes from: its place
 * in the rack file, or the stock that it is left of.
 */
export function piecesCsv(list: CutList, tape: Tape): string {
  const lines = list.pieces.flatMap((piece): Cell[][] => {
    const marks = tapeMarks(piece, list.od, tape.step);
    const cuts = marks.marks.length === 0 ? [undefined] : marks.marks;
    const from = list.stock.find(({ id }) => id === piece.stock)?.rack;
    return cuts.map((cut) => pieceCells(piece, from && stockFrom(from), marks, cut, tape));
  });
  // A column more only where pieces were corrected at the bench.
  if (list.pieces.every(({ asCut }) => asCut === undefined)) return writeCsv(heads(tape.unit), lines);
  const asCut = new Map(list.pieces.map((piece) => [piece.id, piece.asCut]));
  return writeCsv(
    [...heads(tape.unit), 'as cut'],
    lines.map((line) => [...line, asCut.get(String(line[0]))]),
  );
}

function pieceCells(
  piece: PieceRow,
  from: string | undefined,
  { length, square, trim, clockMark }: TapeMarks,
  cut: TapeMarks['marks'][number] | undefined,
  tape: Tape,
): Cell[] {
  const bend = piece.kind === 'bend' ? piece : undefined;
  const on = (mark: number | undefined): Cell => tapeCell(mark, tape);
  const near = (leg: number | undefined): Cell => on(leg && onTape(leg, tape.step));
  return [
    piece.id,
    piece.stock,
    from,
    piece.end,
    tapeCell(bend?.clr, { ...tape, step: 0 }),
    bend && degrees(bend.angle),
    near(bend?.legUp),
    near(bend?.legDown),
    on(length),
    bend && degrees(bend.clock),
    on(clockMark),
    on(square.legUp),
    on(square.legDown),
    on(square.length),
    ...trim.map((off) => tapeCell(off, { ...tape, step: 0 })),
    cut?.from,
    cut && degrees(cut.angle),
    on(cut?.outside),
    on(cut?.inside),
    on(cut?.fromSawnEnd?.outside),
    on(cut?.fromSawnEnd?.inside),
    piece.face && degrees(piece.face.lean),
    piece.face && degrees(piece.face.toward),
    piece.weldUp,
    piece.weldDown,
    bend?.reversed,
    piece.mass,
  ];
}
