import { degrees, tidy } from '../base/numbers.js';
import type { CutFigures, CutList, PieceRow } from '../design/pieces/index.js';
import type { ShopSpec } from '../job/shop.js';
import type { Paint } from './paint.js';
import { cutFigureLines } from './say-cut-figures.js';

/** The cut list as a person at the saw reads it: a line a piece, then what to buy and how long it takes. */
export function cutListLines(list: CutList, figures: CutFigures, shop: ShopSpec, paint: Paint): string[] {
  const lines = ['', paint.strong('Cut list'), paint.dim('(marks in mm and degrees; the files say more)')];
  let primary = '';
  for (const piece of list.pieces) {
    if (piece.primary !== primary) lines.push(paint.strong(`  ${piece.primary}`));
    primary = piece.primary;
    lines.push(
      `    ${piece.id.padEnd(6)} ${piece.stock.padEnd(4)} ${pieceWords(piece)}${piece.asCut === undefined ? '' : ` [${piece.asCut}]`}`,
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
    '',
    `${welds} welds; stock for ${tidy(cost, 2)} (${worth})`,
    `about ${hours} of fit-up and welding, ${tidy(argon, 0)} l of purge gas${wire}`,
    ...cutFigureLines(figures, shop, paint),
  );
  return lines;
}

function pieceWords(piece: PieceRow): string {
  const lean = piece.face === undefined ? '' : `, first cut leaning ${tidy(degrees(piece.face.lean), 1)}`;
  if (piece.kind === 'straight') return `straight ${tidy(piece.length, 1)}${lean}`;
  const legs = [
    ...(piece.legUp > 0 ? [`${tidy(piece.legUp, 1)} before`] : []),
    ...(piece.legDown > 0 ? [`${tidy(piece.legDown, 1)} behind`] : []),
  ].join(', ');
  const end =
    piece.end === 'middle' ? 'out of the middle' : piece.end === 'whole' ? 'whole' : `end ${piece.end}`;
  return (
    `bend CLR ${tidy(piece.clr, 1)}, ${tidy(degrees(piece.angle), 2)} deg, ${end}${legs === '' ? '' : `, leg ${legs}`}; ` +
    `turn ${tidy(degrees(piece.clock), 1)} (mark ${tidy(piece.clockMark, 1)})${lean}`
  );
}
