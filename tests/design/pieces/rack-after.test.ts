import { beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { degrees } from '../../../src/base/numbers.js';
import { randomFrom } from '../../../src/base/random.js';
import { rackText } from '../../../src/build/rack-text.js';
import { openSolver } from '../../../src/build/solver.js';
import { chooseStock } from '../../../src/design/pieces/choose-stock.js';
import { layOut } from '../../../src/design/pieces/lay-out.js';
import type { Solve } from '../../../src/design/pieces/linear-program.js';
import type { PrimaryToCut } from '../../../src/design/pieces/primary.js';
import { rackAfter } from '../../../src/design/pieces/rack-after.js';
import { cutListRecord } from '../../../src/design/pieces/record.js';
import { cuttingRules } from '../../../src/design/pieces/rules.js';
import { readRack } from '../../../src/job/index.js';
import type { Rack } from '../../../src/job/rack.js';
import type { Record_ } from '../../support/check-cut-list.js';
import { randomRack, randomRows } from '../../support/trial-pieces.js';

let solve: Solve;
beforeAll(async () => {
  solve = await openSolver();
});

const rad = Math.PI / 180;

/** Stock of one item along its centre line, and what became of it, from the record alone (mm). */
function balanceOf(item: Record_['stock'][number], record: Record_, od: number) {
  const { kerf, dress } = record.saw;
  const straightCut = kerf + 2 * dress;
  const clr = item.clr ?? 0;
  const inside = clr - od / 2;
  // A flat saw between two radial faces needs its kerf at the inside of the bend.
  const arcCut = clr * (Math.asin(kerf / inside) + (2 * dress) / inside);
  const on = record.pieces.filter(({ stock }) => stock === item.id);
  const legs = item.legs ?? [0, 0];
  const whole = item.length ?? legs[0] + legs[1] + clr * (item.angle ?? 0) * rad;
  const made = on.reduce(
    (sum, p) => sum + (p.kind === 'straight' ? p.length : p.leg_up + p.leg_down + clr * p.angle * rad),
    0,
  );
  const back = record.leftovers
    .filter(({ stock }) => stock === item.id)
    .reduce(
      (sum, left) =>
        sum + (left.length ?? (left.legs?.[0] ?? 0) + (left.legs?.[1] ?? 0) + clr * (left.angle ?? 0) * rad),
      0,
    );
  const arcs = on.filter(({ kind }) => kind === 'bend').length;
  return { whole, made, back, straightCut, arcCut, pieces: on.length, arcs };
}

function randomLists(count: number, look: (rack: Rack, record: Record_, after: Rack, text: string) => void) {
  const random = randomFrom(11);
  let made = 0;
  for (let i = 0; i < count; i++) {
    const plain = randomRack(random);
    const few = (quantity: number): number => (random.chance(0.5) ? random.whole(1, 4) : quantity);
    const rack = {
      ...plain,
      bends: plain.bends.map((bend) => ({ ...bend, quantity: few(bend.quantity) })),
      straights: plain.straights.map((stick) => ({ ...stick, quantity: few(stick.quantity) })),
    };
    const rules = cuttingRules(rack);
    const primaries = Array.from({ length: random.whole(1, 3) }, (_, p): PrimaryToCut => {
      const rows = randomRows(random, rack, random.whole(1, 3));
      return { id: `P${p + 1}`, rows, path: `P${p + 1}`, noWeld: [], intoFlange: 0, oblique: 0, slip: 0 };
    });
    const { chosen } = chooseStock(primaries, rules, i % 5 === 0 ? solve : undefined);
    if (!chosen) continue;
    made++;
    const list = layOut(chosen, rules, rack.tube, () => ({ face: undefined, collectorWeld: false }));
    const after = rackAfter(rack, list);
    const record = JSON.parse(JSON.stringify(cutListRecord(list))) as Record_;
    look(rack, record, after.rack, rackText(after, 'job.yaml'));
  }
  expect(made).toBeGreaterThan(count / 3);
}

describe('nothing is lost', () => {
  it('stock = pieces + cuts + leftovers + ends too short to use, for every item of 60 random headers', () => {
    let exact = 0;
    randomLists(60, (_rack, record) => {
      for (const item of record.stock) {
        const { whole, made, back, straightCut, arcCut, pieces, arcs } = balanceOf(item, record, 42.4);
        const lost = whole - made - back;
        expect(lost, `${item.id}: more comes out than went in`).toBeGreaterThan(-1e-6);
        if (item.length !== undefined) {
          const left = record.leftovers.some(({ stock }) => stock === item.id);
          // A raw end of 3 mm and a cut for each piece; an end under 20 mm and its raw 3 mm is not kept.
          const cuts = 3 + pieces * straightCut;
          if (left) expect(lost).toBeCloseTo(cuts, 6);
          else expect(lost).toBeLessThan(cuts + 23 + 1e-6);
          if (left) exact++;
          continue;
        }
        // Of a bend, at the most: a cut at each piece's two ends, both raw ends, two legs under 20 mm and an arc
        // with less than 12 mm on its inside.
        const arcTooShort = (12 / ((item.clr ?? 0) - 21.2)) * (item.clr ?? 0);
        const most = (arcs + 1) * arcCut + 2 * (pieces + 1) * straightCut + 2 * 3 + 2 * 20 + arcTooShort;
        expect(lost, `${item.id} of ${whole}`).toBeLessThan(most);
      }
    });
    expect(exact).toBeGreaterThan(8);
  });
});

interface Written {
  units: string;
  bends: { quantity: number | 'unlimited'; clr: number; angle: number; legs: [number, number] }[];
  straights: { quantity: number | 'unlimited'; length: number }[];
  offcuts: { clr?: number; angle?: number; legs?: [number, number]; length?: number; price: number }[];
}

describe('the rack that is left', () => {
  it('of 30 random headers reads back without an error, limited items fewer by what was used', () => {
    let limited = 0;
    randomLists(30, (rack, record, _after, text) => {
      const { value, problems } = readRack(text, { file: 'rack-2.yaml' });
      expect(problems, text).toEqual([]);
      expect(value?.tube).toEqual(rack.tube);
      expect(value?.saw).toEqual(rack.saw);
      const written = parse(text) as Written;
      const used = (path: string): number => record.stock.filter((one) => one.rack === path).length;
      for (const [name, before, now] of [
        ['bends', rack.bends, written.bends],
        ['straights', rack.straights, written.straights],
      ] as const)
        before.forEach(({ quantity }, i) => {
          const path = `${name}.${i}`;
          expect(now[i]?.quantity, path).toBe(quantity === Infinity ? 'unlimited' : quantity - used(path));
          if (quantity < Infinity && used(path) > 0) limited++;
        });
      for (const offcut of written.offcuts) {
        expect(offcut.price).toBe(0);
        // Least insert 20, both raw ends of 3 on it.
        if (offcut.length !== undefined) expect(offcut.length).toBeGreaterThanOrEqual(26);
        // Never more than the record says is left of one item, and at most 0.1 mm and 0.01 deg less.
        const same = record.leftovers.some((left) =>
          [
            [left.length, offcut.length, 0.1],
            [left.angle, offcut.angle, 0.01],
            [left.legs?.[0], offcut.legs?.[0], 0.1],
            [left.legs?.[1], offcut.legs?.[1], 0.1],
          ].every(
            ([most, said, step = 0]) =>
              (most === undefined && said === undefined) ||
              ((said ?? NaN) <= (most ?? NaN) + 2e-5 && (said ?? NaN) > (most ?? NaN) - step - 1e-9),
          ),
        );
        expect(same, JSON.stringify(offcut)).toBe(true);
      }
      const kept = record.leftovers.filter(({ length }) => length === undefined || length >= 26);
      expect(written.offcuts.length).toBeLessThanOrEqual(kept.length);
      const straight = (rows: readonly { length?: number }[]): number =>
        rows.filter(({ length }) => length !== undefined).length;
      expect(straight(written.offcuts)).toBe(straight(kept));
    });
    expect(limited).toBeGreaterThan(5);
  });

  it('a demo bend on paper: 60 deg with a leg of 40 off end A leaves the rest of the arc with leg B', () => {
    const rack = readRack(
      [
        'units: in',
        'tube: { od: 42.4 mm, wall: { value: 1.6 mm, how: guessed } }',
        'saw: { kerf: 2 mm, dress: 0.5 mm, raw_trim: 3 mm }',
        'bends: [{ clr: 63.6 mm, angle: 180, legs: [100 mm, 100 mm], price: 9, quantity: 2 }]',
      ].join('\n'),
    ).value;
    if (!rack) throw new Error('the rack did not read');
    const rules = cuttingRules(rack);
    const primary: PrimaryToCut = {
      id: 'P1',
      rows: [{ straight: 40 }, { clr: 63.6, angle: 60 * rad, clock: 0 }, { straight: 0 }],
      path: 'P1',
      noWeld: [],
      intoFlange: 0,
      oblique: 0,
      slip: 0,
    };
    const { chosen } = chooseStock([primary], rules, undefined);
    if (!chosen) throw new Error('no plan');
    const list = layOut(chosen, rules, rack.tube, () => ({ face: undefined, collectorWeld: false }));
    const after = rackAfter(rack, list);
    const bend = after.rack.bends.find(({ path }) => path.startsWith('left of'));
    // Inside radius 42.4: 60 + asin(2 / 42.4) + 1 / 42.4 = 60 + 2.7037 + 1.3513 deg are gone of 180.
    expect(degrees(bend?.angle ?? 0)).toBeCloseTo(180 - 60 - 2.7037 - 1.3513, 3);
    expect(bend?.legs).toEqual([0, 100]);
    expect(after.rack.bends[0]?.quantity).toBe(1);
    // Of leg A 100 - 40 - 3 mm.
    expect(after.rack.straights.map(({ length }) => length)).toEqual([57]);
    const text = rackText(after, 'job.yaml');
    expect(text).toContain('wall: { value: 1.6, how: guessed }');
    expect(text).toContain('angle: 115.94, legs: [0, 100], price: 0, quantity: 1 } # left of B1');
    expect(readRack(text).value?.guesses.map(({ path }) => path)).toEqual(['tube.wall']);
  });
});
