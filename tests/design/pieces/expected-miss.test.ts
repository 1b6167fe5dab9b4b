import { describe, expect, it } from 'vitest';
import { radians } from '../../../src/base/numbers.js';
import { randomFrom } from '../../../src/base/random.js';
import { add, distance3, scale, subtract, turnedAbout, type Vector } from '../../../src/base/vectors.js';
import { expectedMiss, handMotions } from '../../../src/design/pieces/expected-miss.js';
import { freeHand } from '../../../src/job/shop.js';
import type { CentreLineRow } from '../../../src/geom/centre-line.js';
import { trialTube } from '../../support/trial-pieces.js';

const bend = (angle: number, clock: number, clr = 63.6) => ({
  clr,
  angle: radians(angle),
  clock: radians(clock),
});

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
    const { pieces, line } = trialTube([{ straight: 500 }]);
    const miss = expectedMiss(pieces, line, freeHand);
    expect(miss.tilt).toBeCloseTo(500 * radians(0.5) * Math.SQRT2, 9);
    // Two sawn faces of 0.5 mm along the tube; turning it about its own axis moves nothing.
    expect(miss.cut).toBeCloseTo(0.5 * Math.SQRT2, 9);
    expect(miss.clock).toBeCloseTo(0, 9);
    expect(miss.rms).toBeCloseTo(Math.hypot(miss.tilt, miss.cut), 9);
  });

  it('four bends: about 10 mm, most of it the tilt of the faces, which is why there is a fixture', () => {
    const { pieces, line } = trialTube(four);
    const miss = expectedMiss(pieces, line, freeHand);
    expect(miss.rms).toBeGreaterThan(5);
    expect(miss.rms).toBeLessThan(15);
    expect(miss.tilt).toBeGreaterThan(miss.clock);
    expect(miss.tilt).toBeGreaterThan(miss.cut);
  });

  it('a Monte-Carlo of 20000 tubes with the same errors, in full turns and shifts: within 2 %', () => {
    const { pieces, line } = trialTube(four);
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
