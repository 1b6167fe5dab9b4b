import { degrees, tidy } from '../base/numbers.js';
import { worstBend, type CutFigures } from '../design/pieces/index.js';
import type { ShopSpec } from '../job/shop.js';
import { tapeCell } from '../files/index.js';
import type { Paint } from './paint.js';

type Off = CutFigures['tape'][number]['miss'];

const offText = ({ distance, angle }: Off): string =>
  `${tidy(distance, 1)} mm ${tidy(degrees(angle), 1)} deg`;

/** What rounding the marks to a tape costs, a line a primary; nothing where they are not rounded. */
export function tapeLines({ tape: effects }: CutFigures, { tape }: ShopSpec, paint: Paint): string[] {
  if (effects.length === 0) return [];
  const step = `${tapeCell(tape.step, tape) ?? ''} ${tape.unit}`;
  return [
    '',
    paint.strong(`What rounding the marks to ${step} costs (shop.tape)`),
    paint.dim(
      '(how far each end stands off where every piece is cut and turned exactly at its rounded marks)',
    ),
    paint.dim('      at the marks     turned by degrees  bend furthest off'),
    ...effects.map((effect) => {
      const worst = worstBend(effect);
      const bend = worst === undefined ? '-' : `${worst.piece} by ${tidy(degrees(worst.off), 2)} deg`;
      return `  ${effect.primary.padEnd(4)}${offText(effect.miss).padEnd(17)}${offText(effect.missByDegrees).padEnd(19)}${bend}`;
    }),
  ];
}
