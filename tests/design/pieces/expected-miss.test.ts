import { describe, expect, it } from 'vitest';
import { radians } from '../../../src/base/numbers.js';
import { randomFrom } from '../../../src/base/random.js';
import { add, distance3, scale, subtract, turnedAbout, type Vector } from '../../../src/base/vectors.js';
import { chooseStock } from '../../../src/design/pieces/choose-stock.js';
import { expectedMiss, handMotions } from '../../../src/design/pieces/expected-miss.js';
import { layOut } from '../../../src/design/pieces/lay-out.js';
import { cuttingRules } from '../../../src/design/pieces/rules.js';
import { freeHand } from '../../../src/job/shop.js';
import { centreLineOf, type CentreLineRow } from '../../../src/geom/centre-line.js';
import { demoRack } from '../../support/trial-pieces.js';

const start = { at: [0, 0, 0], direction: [0, 0, 1], clockReference: [0, 1, 0] } as const;
const bend = (angle: number, clock: number, clr = 63.6) => ({
  clr,
  angle: radians(angle),
  clock: radians(clock),
});

function piecesOf(rows: CentreLineRow[]) {
  const rules = cuttingRules(demoRack);
  const primary = { id: 'P1', path: 'P1', rows, noWeld: [], intoFlange: 0, oblique: 0, slip: 0 };
  const { chosen } = chooseStock([primary], rules, undefined);
  if (!chosen) throw new Error('no plan');
  const list = layOut(chosen, rules, demoRack.tube, () => ({ face: undefined, collectorWeld: false }));
  return { pieces: list.pieces, line: centreLineOf(start, rows) };
}

const four: CentreLineRow[] = [
  { straight: 40 },
  bend(70, 20),
  { straight: 60 },
  bend(50, 130, 84.8),
  { straight: 80 },
  bend(60, 250),
  { straight: 70 },
  bend(45, 80),
  { straight: 120 },
];

describe('expected miss of a primary welded up free hand', () => {
  it('a straight tube of 500 mm, by hand: the tilt at the flange moves its end by 500 x 0.5 deg each way', () => {
    const { pieces, line } = piecesOf([{ straight: 500 }]);
    const miss = expectedMiss(pieces, line, freeHand);
    expect(miss.tilt).toBeCloseTo(500 * radians(0.5) * Math.SQRT2, 9);
    // Two sawn faces of 0.5 mm along the tube; turning it about its own axis moves nothing.
    expect(miss.cut).toBeCloseTo(0.5 * Math.SQRT2, 9);
    expect(miss.clock).toBeCloseTo(0, 9);
    expect(miss.rms).toBeCloseTo(Math.hypot(miss.tilt, miss.cut), 9);
  });

  it('four bends: about 10 mm, most of it the tilt of the faces, which is why there is a fixture', () => {
    const { pieces, line } = piecesOf(four);
    const miss = expectedMiss(pieces, line, freeHand);
    expect(miss.rms).toBeGreaterThan(5);
    expect(miss.rms).toBeLessThan(15);
    expect(miss.tilt).toBeGreaterThan(miss.clock);
    expect(miss.tilt).toBeGreaterThan(miss.cut);
  });

  it('a Monte-Carlo of 20000 tubes with the same errors, in full turns and shifts: within 2 %', () => {
    const { pieces, line } = piecesOf(four);
    const motions = handMotions(pieces, line);
    const random = randomFrom(8);
    const gauss = (): number =>
      Math.sqrt(-2 * Math.log(1 - random.next())) * Math.cos(2 * Math.PI * random.next());
    let sum = 0;
    const trials = 20_000;
    for (let i = 0; i < trials; i++) {
      // From the far end back: each motion carries all that is downstream of it.
      let end: Vector = line.end.at;
      for (const { kind, times, axis, through, per } of [...motions].reverse()) {
        const by = gauss() * times * per * freeHand[kind];
        end = through
          ? add(through, turnedAbout(subtract(end, through), axis, by))
          : add(end, scale(axis, by));
      }
      sum += distance3(end, line.end.at) ** 2;
    }
    const rms = Math.sqrt(sum / trials);
    expect(Math.abs(rms / expectedMiss(pieces, line, freeHand).rms - 1)).toBeLessThan(0.02);
  });
});
