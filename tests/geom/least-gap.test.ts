import { describe, expect, it } from 'vitest';
import { radians } from '../../src/base/numbers.js';
import { distance, type Point } from '../../src/base/points.js';
import { randomFrom } from '../../src/base/random.js';
import { arc, line, pointAt } from '../../src/geom/arcs.js';
import { gapBetween, leastGap } from '../../src/geom/least-gap.js';
import { circleLoop, distanceTo, movedLoop } from '../../src/geom/loops.js';
import type { Loop, Segment } from '../../src/geom/segments.js';
import { shadowOf } from '../../src/geom/shadow.js';
import { dShape, obround, roundedRectangle } from '../../src/geom/shapes.js';

describe('least distance between two loops, against closed forms', () => {
  it('two circles apart: centres less radii; one in the other: radius less radius less centres', () => {
    expect(leastGap(circleLoop([0, 0], 10), circleLoop([30, 40], 15)).gap).toBeCloseTo(25, 12);
    expect(leastGap(circleLoop([0, 0], 30), circleLoop([6, 8], 5)).gap).toBeCloseTo(15, 12);
    const { from, to } = leastGap(circleLoop([0, 0], 30), circleLoop([6, 8], 5));
    expect(distance(from, [18, 24])).toBeLessThan(1e-9);
    expect(distance(to, [9, 12])).toBeLessThan(1e-9);
  });
  it('one centre for both: the difference of the radii', () => {
    expect(leastGap(circleLoop([3, 4], 30), circleLoop([3, 4], 12)).gap).toBeCloseTo(18, 12);
  });
  it('crossing and touching loops: 0, at the place', () => {
    expect(leastGap(circleLoop([0, 0], 10), circleLoop([12, 0], 10)).gap).toBe(0);
    expect(leastGap(circleLoop([0, 0], 10), circleLoop([18, 24], 20)).gap).toBeCloseTo(0, 9);
  });
  it('hole of 9 in a plate 60 x 40 with corners of 8, towards its corner', () => {
    const plate = roundedRectangle(60, 40, 8);
    // The corner's centre is at (22, 12), the hole's 3 and 4 nearer to the middle.
    expect(leastGap(circleLoop([25, 16], 2), plate).gap).toBeCloseTo(8 - 5 - 2, 12);
    expect(leastGap(circleLoop([0, 10], 4.5), plate).gap).toBeCloseTo(10 - 4.5, 12);
  });
  it('the published ring of four 42.4 tubes: a disc of the void circle, 17.5627, touches them all', () => {
    const reach = 59.9627 / 2;
    const ring = [45, 135, 225, 315].map((a): Loop => {
      return circleLoop([reach * Math.cos(radians(a)), reach * Math.sin(radians(a))], 21.2);
    });
    for (const tube of ring) expect(leastGap(circleLoop([0, 0], 17.5627 / 2), tube).gap).toBeLessThan(1e-4);
    expect(leastGap(ring[0] ?? [], ring[1] ?? []).gap).toBeLessThan(1e-4);
  });
  it('two tubes leaning together at 8 degrees, 5 apart in their slot plane: 4.58 between their holes through a sheet', () => {
    const lean = radians(8);
    const hole = (side: number): Loop =>
      shadowOf({
        at: [side * (42.4 / 2 + 5 / 2), 0],
        zAt: 0,
        direction: [-side * Math.sin(lean), 0, Math.cos(lean)],
        diameter: 42.4,
        from: 0,
        to: 0,
      }).loop;
    // Each hole reaches r / cos a from its centre instead of r.
    expect(leastGap(hole(-1), hole(1)).gap).toBeCloseTo(47.4 - 42.4 / Math.cos(lean), 9);
    expect(leastGap(hole(-1), hole(1)).gap).toBeCloseTo(4.58, 2);
  });
});

describe('least distance, against looking along both edges', () => {
  /** Alternating walk from many starts: an upper bound that needs no normals. */
  const looked = (a: readonly Segment[], b: readonly Segment[]): number =>
    Math.min(
      ...a.flatMap((piece) =>
        Array.from({ length: 201 }, (_, i) => distanceTo(b, pointAt(piece, i / 200)).distance),
      ),
    );
  it('400 pairs of lines and arcs', () => {
    const random = randomFrom(41);
    const piece = (): Segment => {
      const at: Point = [random.between(-20, 20), random.between(-20, 20)];
      if (random.chance(0.4)) return line(at, [random.between(-20, 20), random.between(-20, 20)]);
      return arc(
        at,
        random.between(2, 25),
        random.between(0, 6),
        random.between(0.3, 6) * (random.chance(0.5) ? 1 : -1),
      );
    };
    for (let i = 0; i < 400; i++) {
      const [a, b] = [piece(), piece()];
      const { gap, from, to } = gapBetween(a, b);
      const seen = Math.min(looked([a], [b]), looked([b], [a]));
      expect(gap, `pair ${String(i)}`).toBeLessThan(seen + 1e-9);
      // A step along the longest edge is under 0.8 mm: where they cross, it may miss by half of that.
      expect(gap, `pair ${String(i)}`).toBeGreaterThan(seen - 0.4);
      if (seen > 2) expect(gap, `pair ${String(i)}`).toBeGreaterThan(seen - 0.1);
      expect(distance(from, to)).toBeCloseTo(gap, 9);
      expect(distanceTo([a], from).distance).toBeLessThan(1e-6);
      expect(distanceTo([b], to).distance).toBeLessThan(1e-6);
    }
  });
  it('100 pairs of openings, either way round', () => {
    const random = randomFrom(43);
    const opening = (): Loop => {
      const shapes = [
        circleLoop([0, 0], 12),
        obround(40, 20),
        dShape(36, 30, 'left', 5),
        roundedRectangle(38, 34, 9),
      ];
      return movedLoop(random.pick(shapes), random.between(0, 6), [
        random.between(-60, 60),
        random.between(-60, 60),
      ]);
    };
    for (let i = 0; i < 100; i++) {
      const [a, b] = [opening(), opening()];
      const { gap } = leastGap(a, b);
      expect(leastGap(b, a).gap).toBeCloseTo(gap, 9);
      const seen = Math.min(looked(a, b), looked(b, a));
      expect(gap).toBeLessThan(seen + 1e-9);
      expect(gap).toBeGreaterThan(seen - 0.2);
    }
  });
});
