import { radians } from '../../src/base/numbers.js';
import type { Random } from '../../src/base/random.js';
import { chooseStock } from '../../src/design/pieces/choose-stock.js';
import type { PieceRow } from '../../src/design/pieces/cut-list.js';
import { layOut } from '../../src/design/pieces/lay-out.js';
import { cuttingRules } from '../../src/design/pieces/rules.js';
import { centreLineOf, type CentreLine, type CentreLineRow } from '../../src/geom/centre-line.js';
import type { Rack, RackBend } from '../../src/job/rack.js';

/** An invented rack of 42.4 x 1.6 tube. */
export function rackOf(
  bends: readonly (Omit<RackBend, 'path' | 'quantity'> & { quantity?: number })[],
  sticks: readonly { length: number; price: number; quantity?: number }[] = [{ length: 1000, price: 18 }],
  saw = { kerf: 2, dress: 0.5, rawTrim: 3 },
): Rack {
  return {
    file: undefined,
    unit: 'mm',
    tube: { od: 42.4, wall: 1.6, material: '304' },
    saw,
    bends: bends.map((bend, i) => ({ quantity: Infinity, ...bend, path: `bends.${i}` })),
    straights: sticks.map((stick, i) => ({ quantity: Infinity, ...stick, path: `straights.${i}` })),
    defaults: [],
    guesses: [],
  };
}

/** The rack of the demo: half-turn bends of three radii with 100 mm legs, 1 m sticks. */
export const demoRack = rackOf(
  [
    { clr: 42.4, price: 14.3 },
    { clr: 63.6, price: 16.9 },
    { clr: 84.8, price: 19.6 },
  ].map((bend) => ({ ...bend, angle: Math.PI, legs: [100, 100] as const })),
);

/** A random rack of one or two radii: quarter and half bends, long legs, short legs and none. */
export function randomRack(random: Random): Rack {
  const bends = [42.4, 63.6].flatMap((clr) =>
    random.chance(0.2) && clr === 42.4
      ? []
      : Array.from({ length: random.whole(1, 2) }, () => ({
          clr,
          angle: radians(random.pick([45, 60, 90, 120, 180])),
          legs: [random.pick([0, 0, 43, 63, 103]), random.pick([0, 43, 63, 103])] as const,
          price: random.whole(5, 20),
        })),
  );
  const length = random.pick([106, 206, 1006, 1006]);
  return rackOf(bends, random.chance(0.1) ? [] : [{ length, price: random.whole(5, 20) }]);
}

/** Random rows with whole millimetres and degrees, among them straights of 0, slivers, and bends in one plane. */
export function randomRows(random: Random, rack: Rack, bends = random.whole(0, 3)): CentreLineRow[] {
  const straight = (): number =>
    random.chance(0.15) ? 0 : random.chance(0.2) ? random.whole(1, 25) : random.whole(20, 230);
  const rows: CentreLineRow[] = [{ straight: straight() }];
  for (let i = 0; i < bends; i++) {
    const angle = random.chance(0.25)
      ? random.pick(rack.bends).angle
      : radians(random.chance(0.15) ? random.whole(4, 30) : random.whole(20, 150));
    rows.push(
      {
        clr: random.pick(rack.bends).clr,
        angle: Math.min(angle, radians(170)),
        clock: random.chance(0.2) ? 0 : radians(random.whole(1, 359)),
      },
      { straight: straight() },
    );
  }
  return rows;
}

/** The pieces of one tube off the demo's rack, square to the flange, and its line from the origin along z. */
export function trialTube(rows: CentreLineRow[]): { pieces: readonly PieceRow[]; line: CentreLine } {
  const rules = cuttingRules(demoRack);
  const primary = { id: 'P1', path: 'P1', rows, noWeld: [], intoFlange: 0, oblique: 0, slip: 0 };
  const { chosen } = chooseStock([primary], rules, undefined);
  if (!chosen) throw new Error('no plan');
  const list = layOut(chosen, rules, demoRack.tube, () => ({ face: undefined, collectorWeld: false }));
  const start = { at: [0, 0, 0], direction: [0, 0, 1], clockReference: [0, 1, 0] } as const;
  return { pieces: list.pieces, line: centreLineOf(start, rows) };
}
