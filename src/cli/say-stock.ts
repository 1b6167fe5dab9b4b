import { degrees, tidy } from '../base/numbers.js';
import { stockFrom, type CutList } from '../design/pieces/index.js';
import { tapeCell } from '../files/index.js';
import type { Tape } from '../job/shop.js';
import type { Paint } from './paint.js';

type Stock = CutList['stock'][number];

/**
 * What the names of stock on the cut list mean: a line for each, with what it is, where it comes from and what is
 * sawn from it. Stock that a spoilt piece was cut from stands here too, as the rest of it may be used again.
 */
export function stockLines(list: CutList, tape: Tape, paint: Paint): string[] {
  const long = (length: number): string => {
    const cell = tapeCell(length, { ...tape, step: 0 });
    return typeof cell === 'number' ? tidy(cell, 1) : (cell ?? '');
  };
  const shape = (item: Stock): string =>
    item.kind === 'straight'
      ? `straight ${long(item.length)}`
      : `bend CLR ${tidy(item.clr, 1)}, ${tidy(degrees(item.angle), 1)} deg, legs A ${long(item.legs[0])} and B ${long(item.legs[1])}`;
  const sawn = ({ id }: Stock): string => {
    const pieces = list.pieces.filter(({ stock }) => stock === id);
    const spoilt = (list.scrap ?? [])
      .filter(({ stock }) => stock === id)
      .map((piece) => `${piece.id} (scrap)`);
    return [...spoilt, ...pieces.map((piece) => piece.id)].join(', ');
  };
  return [
    '',
    paint.strong('Stock'),
    paint.dim('(as the rack file has it; mark the ends A and B before the first cut)'),
    ...list.stock.map(
      (item) => `  ${item.id.padEnd(4)} ${shape(item)} (${stockFrom(item.rack)}): ${sawn(item)}`,
    ),
  ];
}
