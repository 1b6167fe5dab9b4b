import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { distance, type Point } from '../../src/base/points.js';
import { crossingsOf, gapBetween } from '../../src/files/measure/gaps.js';
import { arc, line, pointAt } from '../../src/geom/arcs.js';
import type { Segment } from '../../src/geom/segments.js';

describe('least distance of two edges, in closed form', () => {
  const upperHalf = arc([0, 0], 20, 0, Math.PI);
  test('a straight cut 30 above the centre of an arc of 20: 10', () => {
    expect(gapBetween(line([-50, 30], [60, 30]), upperHalf)).toBeCloseTo(10, 12);
  });
  test('the same beyond the end of the cut: from its end', () => {
    expect(gapBetween(line([30, 40], [60, 40]), upperHalf)).toBeCloseTo(50 - 20, 12);
  });
  test('two arcs side by side: distance of centres less both radii', () => {
    const other = arc([50, 0], 12, Math.PI / 2, Math.PI);
    expect(gapBetween(arc([0, 0], 20, -1, 2), other)).toBeCloseTo(50 - 20 - 12, 12);
  });
  test('a circle of 10 set 20 off the centre of one of 50: 20', () => {
    expect(gapBetween(arc([0, 0], 50, -1, 2), arc([20, 0], 10, -2, 4))).toBeCloseTo(20, 12);
  });
  test('arcs about one centre: difference of the radii', () => {
    expect(gapBetween(arc([3, 4], 50, -1, 2), arc([3, 4], 42, -0.2, 0.4))).toBeCloseTo(8, 12);
  });
  test('parallel cuts that overlap: their distance', () => {
    expect(gapBetween(line([0, 0], [10, 0]), line([5, 3], [40, 3]))).toBeCloseTo(3, 12);
  });
  test('cuts that cross: 0', () => {
    expect(gapBetween(line([-50, 5], [50, 6]), upperHalf)).toBe(0);
    expect(crossingsOf(line([-50, 5], [50, 5]), upperHalf).map(([x]) => Math.abs(x))).toEqual([
      expect.closeTo(Math.sqrt(400 - 25), 12),
      expect.closeTo(Math.sqrt(400 - 25), 12),
    ]);
  });
});

test('least distance of any two edges, against 400 points on each: never more, and less by no more than the spacing', () => {
  const coordinate = fc.double({ min: -60, max: 60, noNaN: true });
  const at = fc.tuple(coordinate, coordinate) as fc.Arbitrary<Point>;
  const straight = fc
    .tuple(at, at)
    .filter(([a, b]) => distance(a, b) > 1)
    .map(([a, b]): Segment => line(a, b));
  const round = fc
    .tuple(
      at,
      fc.double({ min: 2, max: 40, noNaN: true }),
      fc.double({ min: -3, max: 3, noNaN: true }),
      fc.double({ min: 0.2, max: 5, noNaN: true }),
      fc.boolean(),
    )
    .map(([centre, radius, start, sweep, back]): Segment =>
      arc(centre, radius, start, back ? -sweep : sweep),
    );
  const edge = fc.oneof(straight, round);
  const spots = (e: Segment): readonly Point[] => Array.from({ length: 401 }, (_, i) => pointAt(e, i / 400));
  const step = (e: Segment): number => distance(pointAt(e, 0.5), pointAt(e, 0.5 + 1 / 400));
  fc.assert(
    fc.property(edge, edge, (a, b) => {
      const others = spots(b);
      const sampled = Math.min(...spots(a).map((p) => Math.min(...others.map((q) => distance(p, q)))));
      const gap = gapBetween(a, b);
      expect(gap).toBeLessThanOrEqual(sampled + 1e-9);
      expect(gap).toBeGreaterThan(sampled - (step(a) + step(b)));
    }),
    { seed: 7, numRuns: 60 },
  );
});
