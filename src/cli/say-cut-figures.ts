import { degrees, tidy } from '../base/numbers.js';
import { breakEvenOf, HEAT_DISTANCE, type CutFigures } from '../design/pieces/index.js';
import type { ShopSpec } from '../job/shop.js';
import type { Paint } from './paint.js';
import { tapeLines } from './say-tape.js';

/** What a cut list comes to, for a person: what a weld is worth, where none may stand, and how true it will be. */
export function cutFigureLines(figures: CutFigures, shop: ShopSpec, paint: Paint): string[] {
  return [
    ...worthLines(figures, shop),
    ...zoneLines(figures),
    ...heatLines(figures),
    ...missLines(figures, shop, paint),
    ...tapeLines(figures, shop, paint),
  ];
}

function worthLines({ byWelds }: CutFigures, { weldPrice }: ShopSpec): string[] {
  const [fewest, ...others] = byWelds;
  const last = others.at(-1);
  if (fewest === undefined || last === undefined || !Number.isFinite(fewest.cost)) return [];
  const found = breakEvenOf(byWelds);
  const sure = byWelds.every(({ proved }) => proved) ? '' : ' (as far as was looked)';
  if (found === undefined)
    return [`up to ${last.welds - fewest.welds} more welds would save nothing in stock${sure}`];
  const { more, saves, price } = found;
  const welds = more === 1 ? '1 weld more' : `${more} welds more`;
  const each = more === 1 ? '' : `, ${tidy(price, 2)} a weld`;
  const told = `${welds} would save ${tidy(saves, 2)} in stock${each}${sure}: `;
  if (weldPrice === undefined)
    return [`${told}worth it only where a weld costs you less (shop.weld_price is not given)`];
  return [
    `${told}${weldPrice < price ? 'your weld costs less' : 'not worth it'}, at ${tidy(weldPrice, 2)} (shop.weld_price)`,
  ];
}

/** Only where a primary needs more welds than its route was counted with. */
const zoneLines = ({ zones }: CutFigures): string[] =>
  zones.flatMap(({ primary, zones: own, more }) => {
    if (more <= 0) return [];
    const where = own.map(({ from, to, what }) => `${tidy(from, 0)} to ${tidy(to, 0)} (${what})`);
    const sleeve = where.length === 0 ? 'the sleeve of its slip joint' : where.join(', ');
    return [
      `${primary} takes ${more === 1 ? '1 weld' : `${more} welds`} more than its route was counted with: none may stand at ${sleeve}`,
    ];
  });

function heatLines({ nearHeat }: CutFigures): string[] {
  if (nearHeat.length === 0) return [];
  return [
    `welds nearer than ${HEAT_DISTANCE} mm to printed plastic: tack them briefly and let them cool, or take the cradle out first`,
    ...nearHeat.map(
      ({ weld, primary, at, cradle, room }) =>
        `  ${weld.padEnd(4)} at ${tidy(at, 0)} on ${primary}, ${tidy(Math.max(0, room), 0)} mm from ${cradle}`,
    ),
  ];
}

function missLines({ miss }: CutFigures, { hand }: ShopSpec, paint: Paint): string[] {
  if (miss.length === 0) return [];
  const [cut, tilt, clock] = [tidy(hand.cut, 2), tidy(degrees(hand.tilt), 2), tidy(degrees(hand.clock), 2)];
  return [
    '',
    paint.strong('How far each end is expected to miss the collector'),
    paint.dim(
      `(mm, root mean square; faces off by ${cut} mm and ${tilt} deg, clocking by ${clock} deg: shop.hand)`,
    ),
    paint.dim('      free hand  in its cradles'),
    ...miss.map(
      ({ primary, hand: free, held }) =>
        `  ${primary.padEnd(4)}${tidy(free.rms, 1).padStart(9)}${(held === undefined ? '-' : tidy(held, 1)).padStart(16)}`,
    ),
  ];
}
