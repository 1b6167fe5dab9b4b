import { describe, expect, it } from 'vitest';
import { randomFrom, type Random } from '../../src/base/random.js';
import { direction, turnedAbout, type Vector } from '../../src/base/vectors.js';
import { moved, rigidFit } from '../../src/geom/rigid-fit.js';
import { far, plus } from '../support/plain-march.js';

const spot = (random: Random, by: number): Vector => [
  random.between(-by, by),
  random.between(-by, by),
  random.between(-by, by),
];

describe('points laid onto their partners', () => {
  it('200 sets turned and shifted at random, three points or more, half turns among them: put back', () => {
    const random = randomFrom(81);
    for (let i = 0; i < 200; i++) {
      const axis = direction(spot(random, 1));
      const angle = i % 10 === 0 ? Math.PI : random.between(-Math.PI, Math.PI);
      const shift = spot(random, 2000);
      const points = Array.from({ length: random.whole(3, 6) }, () => spot(random, 400));
      const partners = points.map((p) => plus(turnedAbout(p, axis, angle), shift));
      const { motion, ratio, misses } = rigidFit(points, partners);
      expect(Math.max(...misses)).toBeLessThan(1e-8);
      expect(ratio).toBeCloseTo(1, 9);
      // It moves the whole space so, not only these points: no mirror.
      const other = spot(random, 400);
      expect(far(moved(motion, other), plus(turnedAbout(other, axis, angle), shift))).toBeLessThan(1e-6);
      // Twice the size is told, and not made up for.
      const grown = rigidFit(
        points,
        partners.map((p) => plus([0, 0, 0], p, 2)),
      );
      expect(grown.ratio).toBeCloseTo(2, 9);
    }
  });

  it('where they do not fit, no other turn or shift misses by less in squares', () => {
    const random = randomFrom(82);
    for (let i = 0; i < 30; i++) {
      const points = Array.from({ length: 4 }, () => spot(random, 200));
      const partners = points.map((p) => plus(turnedAbout(p, direction([1, 2, 3]), 1), spot(random, 5)));
      const { motion, misses } = rigidFit(points, partners);
      const squares = misses.reduce((sum, miss) => sum + miss * miss, 0);
      for (let k = 0; k < 200; k++) {
        const [axis, angle, shift] = [
          direction(spot(random, 1)),
          random.between(-0.02, 0.02),
          spot(random, 1),
        ];
        const other = points.reduce((sum, p, n) => {
          const here = plus(turnedAbout(moved(motion, p), axis, angle), shift);
          return sum + far(here, partners[n] as Vector) ** 2;
        }, 0);
        expect(other).toBeGreaterThan(squares - 1e-9);
      }
    }
  });
});
