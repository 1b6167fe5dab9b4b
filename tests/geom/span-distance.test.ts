import { expect, it } from 'vitest';
import { randomFrom } from '../../src/base/random.js';
import { squaredBetweenSpans } from '../../src/geom/span-distance.js';

/** Where a function with one valley is least, from 0 to 1: golden-section search. */
function leastOf(at: (t: number) => number): number {
  let [low, high] = [0, 1];
  for (let step = 0; step < 45; step++) {
    const [a, b] = [high - 0.618 * (high - low), low + 0.618 * (high - low)];
    if (at(a) < at(b)) high = b;
    else low = a;
  }
  return at((low + high) / 2);
}

/** Distance of two spans by a search along one, and at each place along the other: both have one valley. */
const byLooking = (p: Float64Array, q: Float64Array): number =>
  leastOf((t) =>
    leastOf((u) => {
      const gap = [0, 1, 2].map((i) => {
        const [a, b] = [p[i] ?? 0, q[i] ?? 0];
        return a + t * ((p[i + 3] ?? 0) - a) - b - u * ((q[i + 3] ?? 0) - b);
      });
      return Math.hypot(...gap);
    }),
  );

it('distance of two spans, points and parallel ones among them, against a search along both', () => {
  const random = randomFrom(71);
  for (let i = 0; i < 120; i++) {
    const draw = (): Float64Array => Float64Array.from({ length: 6 }, () => random.between(-100, 100));
    const [p, q] = [draw(), draw()];
    if (i % 4 === 1) p.set(p.slice(0, 3), 3);
    if (i % 8 === 1) q.set(q.slice(0, 3), 3);
    if (i % 4 === 2)
      for (let k = 0; k < 3; k++) q[k + 3] = (q[k] ?? 0) + 0.7 * ((p[k + 3] ?? 0) - (p[k] ?? 0));
    const found = Math.sqrt(squaredBetweenSpans(p, 0, q, 0));
    expect(Math.abs(found - byLooking(p, q))).toBeLessThan(1e-5);
  }
});
