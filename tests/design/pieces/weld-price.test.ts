import { beforeAll, describe, expect, it } from 'vitest';
import { radians } from '../../../src/base/numbers.js';
import { randomFrom } from '../../../src/base/random.js';
import { openSolver } from '../../../src/build/solver.js';
import { fewestWelds } from '../../../src/design/pieces/fewest-welds.js';
import type { Solve } from '../../../src/design/pieces/linear-program.js';
import type { PrimaryToCut } from '../../../src/design/pieces/primary.js';
import { cuttingRules } from '../../../src/design/pieces/rules.js';
import { stockByWelds } from '../../../src/design/pieces/weld-price.js';
import { piecesIn, waysWithin } from '../../../src/design/pieces/ways.js';
import type { CentreLineRow } from '../../../src/geom/centre-line.js';
import { cheapestOfWays, everyWay } from '../../support/stock-by-trying.js';
import { rackOf, randomRack, randomRows } from '../../support/trial-pieces.js';

let solve: Solve;
beforeAll(async () => {
  solve = await openSolver();
});

const toCut = (rows: CentreLineRow[], i = 0): PrimaryToCut => {
  return { id: `P${i + 1}`, path: `P${i + 1}`, rows, noWeld: [], intoFlange: 0, oblique: 0, slip: 0 };
};

describe('what a weld saves in stock', () => {
  it('on paper: a quarter elbow with legs is dear; from a half bend and inserts it takes two welds more', () => {
    const rack = rackOf([
      { clr: 63.6, angle: radians(90), legs: [103, 103], price: 60 },
      { clr: 63.6, angle: Math.PI, legs: [0, 0], price: 10 },
    ]);
    const rows = [{ straight: 90 }, { clr: 63.6, angle: radians(90), clock: 0 }, { straight: 90 }];
    // 1 piece: the elbow, 60. With a weld more nothing is cheaper; with two, arc and two inserts: 10 + 18.
    expect(stockByWelds([toCut(rows)], cuttingRules(rack), solve)).toEqual([
      { welds: 1, cost: 60, proved: true },
      { welds: 2, cost: 60, proved: true },
      { welds: 3, cost: 28, proved: true },
    ]);
  });

  it('60 random small jobs with up to 1 weld more: as trying every way has it', () => {
    const random = randomFrom(23);
    let cheaper = 0;
    for (let i = 0; i < 60; i++) {
      const rack = randomRack(random);
      const rules = cuttingRules(rack);
      const primaries = Array.from({ length: random.whole(1, 2) }, (_, p) =>
        toCut(randomRows(random, rack, random.whole(1, 2)), p),
      );
      const found = stockByWelds(primaries, rules, solve, 1);
      const least = primaries.flatMap(({ rows }) => fewestWelds(rows, rules) ?? []);
      if (least.length < primaries.length) {
        expect(found).toEqual([]);
        continue;
      }
      const ways = least.map((one) => waysWithin(one.ways, one.welds + 1));
      if (ways.reduce((product, one) => product * everyWay(one).length, 1) > 400) continue;
      const fewest = least.reduce((sum, { welds }) => sum + welds, 0);
      for (const extra of [0, 1]) {
        const most = fewest + extra;
        const expected = cheapestOfWays(
          ways,
          rules,
          (chosen) => chosen.reduce((n, way) => n + piecesIn(way), 0) <= most,
        );
        expect(found[extra]?.cost, `case ${i}, ${extra} more`).toBeCloseTo(expected, 6);
        expect(found[extra]?.proved).toBe(true);
      }
      if ((found[1]?.cost ?? 0) < (found[0]?.cost ?? 0)) cheaper++;
    }
    expect(cheaper).toBeGreaterThan(3);
  });
});
