import { degrees, tidy } from '../base/numbers.js';
import {
  onTape,
  tapeMarks,
  type CutFigures,
  type CutList,
  type PieceRow,
  type TapeMarks,
} from '../design/pieces/index.js';
import { tapeCell } from '../files/index.js';
import type { ShopSpec, Tape } from '../job/shop.js';
import type { Paint } from './paint.js';
import { cutFigureLines } from './say-cut-figures.js';
import { stockLines } from './say-stock.js';

/** The cut list as a person at the saw reads it: a line a piece, then what to buy and how long it takes. */
export function cutListLines(list: CutList, figures: CutFigures, shop: ShopSpec, paint: Paint): string[] {
  const lines = [
    '',
    paint.strong('Cut list'),
    paint.dim(`(marks in ${shop.tape.unit} and degrees; the files say more)`),
  ];
  let primary = '';
  for (const piece of list.pieces) {
    if (piece.primary !== primary) lines.push(paint.strong(`  ${piece.primary}`));
    primary = piece.primary;
    lines.push(
      `    ${piece.id.padEnd(6)} ${piece.stock.padEnd(4)} ${pieceWords(piece, tapeMarks(piece, list.od, shop.tape.step), shop.tape)}${piece.asCut === undefined ? '' : ` [${piece.asCut}]`}`,
    );
  }
  const { welds, cost, proved, bound } = list.totals;
  const worth = proved
    ? 'no plan of so few welds is cheaper'
    : bound === undefined
      ? 'stock chosen quickly; `build` proves the cost'
      : `at least ${tidy(bound, 2)}`;
  const { minutes, argon, filler } = figures.estimates;
  const hours = `${Math.floor(minutes / 60)} h ${Math.round((minutes % 60) / 5) * 5} min`;
  const wire = filler === undefined ? '' : `, ${tidy(filler * 1000, 0)} g of filler`;
  lines.push(
    ...stockLines(list, shop.tape, paint),
    '',
    `${welds} welds; stock for ${tidy(cost, 2)} (${worth})`,
    `about ${hours} of fit-up and welding, ${tidy(argon, 0)} l of purge gas${wire}`,
    ...cutFigureLines(figures, shop, paint),
  );
  return lines;
}

function pieceWords(piece: PieceRow, { length, square, clockMark }: TapeMarks, tape: Tape): string {
  // Where nothing is rounded a tenth of a millimetre is as much as is read here.
  const on = (mark: number): string => {
    const cell = tapeCell(onTape(mark, tape.step), tape);
    return typeof cell === 'number' ? tidy(cell, tape.step > 0 ? 3 : 1) : (cell ?? '');
  };
  // An oblique cut takes some of the tube: whoever saws it to the piece's own length first is short of that.
  const first = square.legUp ?? square.length ?? square.legDown;
  const lean =
    piece.face === undefined
      ? ''
      : `; upstream end leaning ${tidy(degrees(piece.face.lean), 1)}${first === undefined ? '' : `, first sawn square at ${on(first)}`}`;
  if (piece.kind === 'straight') return `straight ${on(length)}${lean}`;
  const legs = [
    ...(piece.legUp > 0 ? [`${on(piece.legUp)} before`] : []),
    ...(piece.legDown > 0 ? [`${on(piece.legDown)} behind`] : []),
  ].join(', ');
  const end =
    piece.end === 'middle' ? 'out of the middle' : piece.end === 'whole' ? 'whole' : `end ${piece.end}`;
  return (
    `bend CLR ${tidy(piece.clr, 1)}, ${tidy(degrees(piece.angle), 2)} deg, ${end}${legs === '' ? '' : `, leg ${legs}`}; ` +
    `turn ${tidy(degrees(piece.clock), 1)} (mark ${on(clockMark ?? 0)})${lean}`
  );
}
