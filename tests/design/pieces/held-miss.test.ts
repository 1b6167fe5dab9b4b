import { describe, expect, it } from 'vitest';
import { radians } from '../../../src/base/numbers.js';
import { randomFrom } from '../../../src/base/random.js';
import { add, cross3, dot3, scale, subtract, type Vector } from '../../../src/base/vectors.js';
import { expectedMiss, handMotions } from '../../../src/design/pieces/expected-miss.js';
import { heldMiss } from '../../../src/design/pieces/held-miss.js';
import type { CentreLineRow } from '../../../src/geom/centre-line.js';
import { freeHand } from '../../../src/job/shop.js';
import { trialTube } from '../../support/trial-pieces.js';

const bent: CentreLineRow[] = [
  { straight: 40 },
  { clr: 63.6, angle: radians(70), clock: radians(20) },
  { straight: 60 },
  { clr: 84.8, angle: radians(50), clock: radians(130) },
  { straight: 240 },
];

describe('expected miss of a primary tacked in its cradles', () => {
  it('a straight tube of 500 mm held at 250: its tilt is known twice, by hand and by the cradle', () => {
    const { pieces, line } = trialTube([{ straight: 500 }]);
    const play = 0.5;
    // Two measurements of one angle weigh by the inverse of their squares: 0.5 deg, and 0.5 mm over 250 mm.
    const tilt = 1 / Math.sqrt(1 / radians(0.5) ** 2 + 1 / (play / 250) ** 2);
    const expected = Math.hypot(500 * tilt * Math.SQRT2, 0.5 * Math.SQRT2);
    expect(heldMiss(pieces, line, freeHand, [{ station: 250, play }])).toBeCloseTo(expected, 9);
  });

  it('without a cradle, or with one that holds nothing, it is the free hand itself', () => {
    const { pieces, line } = trialTube(bent);
    const { rms } = expectedMiss(pieces, line, freeHand);
    expect(heldMiss(pieces, line, freeHand, [])).toBeCloseTo(rms, 9);
    expect(heldMiss(pieces, line, freeHand, [{ station: 300, play: 1e9 }])).toBeCloseTo(rms, 6);
  });

  it('every cradle more makes it less, nearer the end more so than near the flange', () => {
    const { pieces, line } = trialTube(bent);
    const miss = (...stations: number[]): number =>
      heldMiss(
        pieces,
        line,
        freeHand,
        stations.map((station) => ({ station, play: 0.35 })),
      );
    expect(miss(150)).toBeLessThan(miss());
    expect(miss(150, 400)).toBeLessThan(miss(150));
    expect(miss(400)).toBeLessThan(miss(150));
    // Held at the very end and before it, nothing across is left there but the play, 0.35 each way.
    expect(miss(300, line.length)).toBeLessThan(Math.hypot(0.35 * Math.SQRT2, 2.5));
  });

  it('200000 tubes by chance, each weighed by how well it lies in the cradles: within 3 %', () => {
    const { pieces, line } = trialTube(bent);
    const motions = handMotions(pieces, line);
    const play = 3;
    const held = [180, 330].map((station) => ({ station, play }));
    const random = randomFrom(11);
    const gauss = (): number =>
      Math.sqrt(-2 * Math.log(1 - random.next())) * Math.cos(2 * Math.PI * random.next());
    const lever = (at: Vector, i: number): Vector => {
      const { axis, through, per, times, kind } = motions[i]!;
      return scale(through ? cross3(axis, subtract(at, through)) : axis, per * times * freeHand[kind]);
    };
    const places = [...held.map(({ station }) => line.poseAt(station)), { ...line.end, at: line.end.at }];
    const levers = places.map(({ at }, k) =>
      motions.map(
        (motion, i) => (motion.station > (held[k]?.station ?? Infinity) ? [0, 0, 0] : lever(at, i)) as Vector,
      ),
    );
    let [sum, weights] = [0, 0];
    for (let trial = 0; trial < 200_000; trial++) {
      const moved: Vector[] = levers.map(() => [0, 0, 0]);
      motions.forEach((_, i) => {
        const by = gauss();
        levers.forEach((own, k) => (moved[k] = add(moved[k]!, scale(own[i]!, by))));
      });
      let off = 0;
      held.forEach((_, k) => {
        const along = dot3(moved[k]!, places[k]!.direction);
        off += dot3(moved[k]!, moved[k]!) - along * along;
      });
      const weight = Math.exp(-off / (2 * play * play));
      weights += weight;
      sum += weight * dot3(moved[2]!, moved[2]!);
    }
    const rms = Math.sqrt(sum / weights);
    const told = heldMiss(pieces, line, freeHand, held);
    expect(Math.abs(rms / told - 1)).toBeLessThan(0.03);
    expect(told).toBeLessThan(0.9 * expectedMiss(pieces, line, freeHand).rms);
  });
});
