import { radians } from '../../src/base/numbers.js';
import type { Random } from '../../src/base/random.js';
import type { CentreLineRow } from '../../src/geom/centre-line.js';
import type { Rack } from '../../src/job/rack.js';
import type { Tube } from './plan-by-trying.js';
import { rackOf } from './trial-pieces.js';

/*
 * Random small jobs, wide on purpose: odd prices, several saws, legs of all kinds and none, offcuts of which
 * there is one, sticks of several lengths, bends of the very angle of the stock or over all of it, slivers,
 * straights of 0, bends in one plane, sockets, leaning tubes, sleeves and stretches without welds.
 */

/** Prices in odd ratios, now and then nothing. */
const price = (random: Random): number =>
  random.chance(0.08)
    ? 0
    : random.chance(0.5)
      ? random.whole(1, 20)
      : Math.round(random.between(100, 9000)) / 100;

export function wideRack(random: Random): Rack {
  const saw = {
    kerf: random.pick([1, 1.2, 2, 2, 3.3]),
    dress: random.pick([0, 0.5, 0.5, 1]),
    rawTrim: random.pick([0, 3, 3, 5]),
  };
  const leg = (): number =>
    random.pick([0, 0, 2, 24, 43, 63, 80, 103, random.whole(10, 160), random.whole(10, 160)]);
  const quantity = (limited: number): number => (random.chance(limited) ? random.whole(1, 2) : Infinity);
  const bend = (clr: number, limited: number) => ({
    clr,
    angle: radians(random.pick([30, 45, 60, 90, 90, 120, 180, 180, random.whole(20, 180)])),
    legs: [leg(), leg()] as const,
    price: price(random),
    quantity: quantity(limited),
  });
  const radii = random.chance(0.4) ? [random.pick([42.4, 63.6])] : [42.4, 63.6];
  const bends = radii.flatMap((clr) => Array.from({ length: random.whole(1, 3) }, () => bend(clr, 0.15)));
  if (random.chance(0.4)) bends.push({ ...bend(random.pick(radii), 1), price: random.pick([0, 0, 3]) });
  const stick = (limited: number) => ({
    length: random.pick([106, 206, 306, 506, 1006, 1006, random.whole(60, 700)]),
    price: price(random),
    quantity: quantity(limited),
  });
  const sticks = random.chance(0.06) ? [] : Array.from({ length: random.whole(1, 2) }, () => stick(0.15));
  if (random.chance(0.3)) sticks.push({ ...stick(1), price: 0 });
  return rackOf(bends, sticks, saw);
}

function wideRows(random: Random, rack: Rack, bends: number): CentreLineRow[] {
  const straight = (): number =>
    random.chance(0.14) ? 0 : random.chance(0.15) ? random.between(1, 25) : random.between(20, 190);
  const rows: CentreLineRow[] = [{ straight: straight() }];
  for (let i = 0; i < bends; i++) {
    const stock = random.pick(rack.bends);
    const angle = random.chance(0.3)
      ? stock.angle + radians(random.pick([0, 0, 0.04, -0.04, 0.06, -0.06, 5, 20]))
      : radians(random.chance(0.15) ? random.between(4, 30) : random.between(20, 130));
    const clock = random.chance(0.2)
      ? random.pick([0, 0, 2 * Math.PI, Math.PI])
      : radians(random.between(0, 360));
    rows.push({ clr: stock.clr, angle: Math.min(angle, radians(175)), clock }, { straight: straight() });
  }
  return rows;
}

/** A tube of `bends` bends, perhaps reaching into the flange, leaning, and with stretches without welds. */
export function wideTube(random: Random, rack: Rack, bends: number): Tube & { readonly lean: number } {
  const rows = wideRows(random, rack, bends);
  const length = rows.reduce((sum, row) => sum + ('straight' in row ? row.straight : row.clr * row.angle), 0);
  const lean = random.chance(0.3) ? radians(random.between(2, 20)) : 0;
  const noWeld: (readonly [number, number])[] = [];
  if (random.chance(0.25)) {
    const from = random.between(-10, length);
    noWeld.push([from, from + random.between(5, 60)]);
  }
  const last = rows.at(-1);
  const sleeve = last && 'straight' in last && last.straight >= 45 && random.chance(0.4);
  if (sleeve) noWeld.push([length - 45, length + 0.25]);
  return {
    rows,
    noWeld,
    lean,
    intoFlange: random.chance(0.25) ? random.between(2, 9) : 0,
    oblique: (rack.tube.od / 2) * Math.tan(lean),
  };
}
