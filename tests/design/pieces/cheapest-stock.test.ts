import { beforeAll, describe, expect, it } from 'vitest';
import { openSolver } from '../../../src/build/solver.js';
import { randomFrom, type Random } from '../../../src/base/random.js';
import { cheapestStock, usualEffort } from '../../../src/design/pieces/cheapest-stock.js';
import type { Solve } from '../../../src/design/pieces/linear-program.js';
import { fewestWelds } from '../../../src/design/pieces/fewest-welds.js';
import { cuttingRules, type CuttingRules } from '../../../src/design/pieces/rules.js';
import { waysWithin, type Ways } from '../../../src/design/pieces/ways.js';
import type { Rack } from '../../../src/job/rack.js';
import { cheapestByTrying, everyWay } from '../../support/stock-by-trying.js';
import { demoRack, randomRack, randomRows } from '../../support/trial-pieces.js';

let solve: Solve;
beforeAll(async () => {
  solve = await openSolver();
});

/** Random primaries that the rack can make, with only their fewest-weld ways. */
function randomWays(random: Random, rack: Rack, rules: CuttingRules, count: number, bends?: number): Ways[] {
  const ways: Ways[] = [];
  for (let tries = 0; ways.length < count && tries < 100; tries++) {
    const found = fewestWelds(randomRows(random, rack, bends ?? random.whole(0, 2)), rules);
    if (found) ways.push(waysWithin(found.ways, found.welds));
  }
  return ways;
}

describe('the solver', () => {
  it('finds the least of a two-row program worked on paper, and the prices of its rows', () => {
    // Least 2a + 3b with a + b = 4 and a <= 3 (as a row): a 3, b 1, cost 9. One more on the first row costs 3,
    // one more on the second saves 1.
    const program = {
      unknowns: [
        { cost: 2, most: Infinity, whole: false },
        { cost: 3, most: Infinity, whole: false },
      ],
      rows: [
        {
          terms: [
            [0, 1],
            [1, 1],
          ],
          sense: '=',
          right: 4,
        },
        { terms: [[0, 1]], sense: '<=', right: 3 },
      ],
    } as const;
    const found = solve(program, { relaxed: true });
    expect(found.status).toBe('best');
    expect(found.cost).toBeCloseTo(9, 9);
    expect(found.prices[0]).toBeCloseTo(3, 9);
    expect(found.prices[1]).toBeCloseTo(-1, 9);
    const impossible = {
      ...program,
      rows: [
        ...program.rows,
        {
          terms: [
            [0, 1],
            [1, 1],
          ],
          sense: '<=',
          right: 3,
        },
      ],
    } as const;
    expect(solve(impossible, {}).status).toBe('none');
  });
});

describe('cheapest stock', () => {
  it('60 random small jobs: the same cost as trying every way to cut them, all cuts at once and by worth', () => {
    const random = randomFrom(99);
    let several = 0;
    for (let i = 0; i < 60; i++) {
      const rack = randomRack(random);
      const rules = cuttingRules(rack);
      const ways = randomWays(random, rack, rules, random.whole(1, 3));
      if (ways.reduce((product, one) => product * everyWay(one).length, 1) > 300) continue;
      const expected = cheapestByTrying(ways, rules);
      const label = `case ${i}`;
      const once = cheapestStock(ways, rules, solve);
      expect(once.plan?.cost, label).toBeCloseTo(expected, 6);
      expect(once.proved, label).toBe(true);
      expect(once.bound, label).toBeCloseTo(expected, 6);
      const worth = cheapestStock(ways, rules, solve, undefined, { ...usualEffort, cutsAtOnce: 0 });
      expect(worth.plan?.cost, `${label} by worth`).toBeCloseTo(expected, 6);
      expect(worth.proved, `${label} by worth`).toBe(true);
      const quick = cheapestStock(ways, rules, undefined);
      expect(quick.plan?.cost, `${label} quick`).toBeGreaterThanOrEqual(expected - 1e-9);
      if ((once.plan?.bends.length ?? 0) > 1) several++;
    }
    expect(several).toBeGreaterThan(20);
  });
});

describe('offcuts and several kinds of stick', () => {
  it('60 random small jobs: the same cost as trying every way, and no plan where there is none', () => {
    const random = randomFrom(71);
    let [made, none] = [0, 0];
    for (let i = 0; i < 60; i++) {
      const plain = randomRack(random);
      const offcut = { ...random.pick(plain.bends), price: 0, quantity: 1, path: 'offcuts.0' };
      const sticks = [
        {
          length: random.pick([106, 206, 406]),
          price: random.whole(3, 9),
          quantity: random.pick([1, 2, Infinity]),
        },
        { length: random.pick([156, 306]), price: 0, quantity: 1 },
      ].map((stick, k) => ({ ...stick, path: `offcuts.${k + 1}` }));
      const straights = random.chance(0.4) ? sticks : [...plain.straights, ...sticks];
      const rack = { ...plain, bends: [...plain.bends, offcut], straights };
      const rules = cuttingRules(rack);
      const ways = randomWays(random, rack, rules, random.whole(1, 3));
      if (ways.reduce((product, one) => product * everyWay(one).length, 1) > 200) continue;
      const expected = cheapestByTrying(ways, rules);
      for (const effort of [usualEffort, { ...usualEffort, cutsAtOnce: 0 }]) {
        const found = cheapestStock(ways, rules, solve, undefined, effort);
        expect(found.plan?.cost ?? Infinity, `case ${i}`).toBeCloseTo(expected, 6);
        if (found.plan) expect(found.proved, `case ${i}`).toBe(true);
      }
      if (expected < Infinity) made++;
      else none++;
    }
    expect(made).toBeGreaterThan(20);
    expect(none).toBeGreaterThan(2);
  });
});

describe('larger jobs', () => {
  it.each([1, 2, 3])('8 primaries of 4 bends from the rack of the demo: proved, trial %i', (trial) => {
    const random = randomFrom(trial * 17);
    const rules = cuttingRules(demoRack);
    const ways = randomWays(random, demoRack, rules, 8, 4);
    const from = performance.now();
    const quick = cheapestStock(ways, rules, undefined).plan;
    const middle = performance.now();
    const best = cheapestStock(ways, rules, solve);
    const until = performance.now();
    if (process.env.SHOW_TIMES)
      console.log({ quick: quick?.cost, best: best.plan?.cost, ms: [middle - from, until - middle] });
    expect(best.proved).toBe(true);
    expect(best.bound).toBeCloseTo(best.plan?.cost ?? NaN, 6);
    expect(best.plan?.cost).toBeLessThanOrEqual(quick?.cost ?? NaN);
    // A bound that no program was needed for: the arcs cannot be had for less than their share of the stock.
    const share = ways
      .flatMap(({ course }) => course.bends)
      .reduce((sum, { clr, angle }) => {
        const stock = rules.bends.find((one) => one.clr === clr);
        return sum + ((stock?.price ?? 0) * angle) / Math.PI;
      }, 0);
    expect(best.plan?.cost).toBeGreaterThanOrEqual(share);
    // The same again, to the last step: the search holds no clock.
    expect(cheapestStock(ways, rules, solve).plan).toEqual(best.plan);
  });
});
