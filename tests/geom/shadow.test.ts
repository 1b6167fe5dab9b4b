import { describe, expect, it } from 'vitest';
import { radians } from '../../src/base/numbers.js';
import { cross, distance, dot, type Point } from '../../src/base/points.js';
import { randomFrom } from '../../src/base/random.js';
import type { Vector } from '../../src/base/vectors.js';
import { pointAt, tangentAt } from '../../src/geom/arcs.js';
import { boundsOfCurves } from '../../src/geom/bounds.js';
import { ellipseCurves, ellipseLoop } from '../../src/geom/ellipse.js';
import { areaOf, areaOfCurves, distanceTo, gapOf, isInside } from '../../src/geom/loops.js';
import type { Loop } from '../../src/geom/segments.js';
import { shadowOf } from '../../src/geom/shadow.js';

const leaning = (degrees: number, toward = 0): Vector => {
  const a = radians(degrees);
  const b = radians(toward);
  return [Math.sin(a) * Math.cos(b), Math.sin(a) * Math.sin(b), Math.cos(a)];
};
/** Largest distance of points of the arcs from the ellipse, to first order: |F| / |grad F|. */
const strayFromEllipse = (loop: Loop, a: number, b: number): readonly [inside: number, outside: number] => {
  let [inside, outside] = [0, 0];
  for (const piece of loop) {
    for (let i = 0; i <= 400; i++) {
      const [x, y] = pointAt(piece, i / 400);
      const off = ((x / a) ** 2 + (y / b) ** 2 - 1) / (2 * Math.hypot(x / a / a, y / b / b));
      inside = Math.max(inside, -off);
      outside = Math.max(outside, off);
    }
  }
  return [inside, outside];
};
const sharpest = (loop: Loop): number =>
  Math.max(
    ...loop.map((piece, i) => {
      const [u, v] = [tangentAt(piece, 1), tangentAt(loop[(i + 1) % loop.length] ?? piece, 0)];
      return dot(u, v) < 0 ? 2 : Math.abs(cross(u, v));
    }),
  );

describe('arcs in place of an ellipse, against the ellipse in closed form', () => {
  it('42.4 seen at 10 degrees: 8 arcs, 0.0076 mm', () => {
    const long = 42.4 / Math.cos(radians(10));
    const { loop, deviation } = ellipseLoop(long, 42.4);
    expect(loop).toHaveLength(8);
    expect(deviation).toBeCloseTo(0.0076, 4);
    expect(Math.max(...strayFromEllipse(loop, long / 2, 21.2))).toBeCloseTo(deviation, 4);
  });
  it('keep the tolerance, are tangent and closed, over ellipses of all shapes', () => {
    const random = randomFrom(23);
    for (let i = 0; i < 60; i++) {
      const [width, height] = [random.between(10, 80), random.between(10, 80)];
      const within = random.pick([0.1, 0.02, 0.01, 0.002]);
      const { loop, deviation } = ellipseLoop(width, height, { within });
      const stray = Math.max(...strayFromEllipse(loop, width / 2, height / 2));
      expect(deviation).toBeLessThanOrEqual(within);
      // The first-order distance of the check itself is good to a few parts in a hundred.
      expect(stray).toBeLessThan(deviation * 1.05 + 1e-6);
      expect(stray).toBeGreaterThan(deviation * 0.95 - 1e-6);
      expect(sharpest(loop)).toBeLessThan(1e-9);
      expect(gapOf(loop)).toBe(0);
      const area = (Math.PI * width * height) / 4;
      expect(Math.abs(areaOf(loop) - area)).toBeLessThan(deviation * 2 * (width + height));
    }
  });
  it('tell how far the ellipse strays from them to a thousandth of it, against 20000 looks', () => {
    for (const [width, height] of [
      [43.0541, 42.4],
      [60, 35],
      [47, 31],
    ] as const) {
      const { loop, deviation } = ellipseLoop(width, height);
      let seen = 0;
      for (let i = 0; i < 20000; i++) {
        const t = (Math.PI * i) / 10000;
        seen = Math.max(
          seen,
          distanceTo(loop, [(width / 2) * Math.cos(t), (height / 2) * Math.sin(t)]).distance,
        );
      }
      expect(Math.abs(deviation / seen - 1)).toBeLessThan(1e-3);
    }
  });
  it('stay outside, or inside, where asked', () => {
    for (const side of ['never inside', 'never outside'] as const) {
      const { loop, deviation } = ellipseLoop(50, 36, { side });
      const [inside, outside] = strayFromEllipse(loop, 25, 18);
      expect(deviation).toBeLessThanOrEqual(0.01);
      expect(side === 'never inside' ? inside : outside).toBeLessThan(2e-5);
      expect(side === 'never inside' ? outside : inside).toBeLessThanOrEqual(deviation * 1.05);
      expect(sharpest(loop)).toBeLessThan(1e-9);
    }
  });
  it('exact ellipse: area pi a b, standing or lying', () => {
    expect(areaOfCurves(ellipseCurves(50, 30))).toBeCloseTo(Math.PI * 25 * 15, 9);
    expect(areaOfCurves(ellipseCurves(30, 50))).toBeCloseTo(Math.PI * 25 * 15, 9);
    const box = boundsOfCurves(ellipseCurves(30, 50));
    expect(box.right).toBeCloseTo(15, 12);
    expect(box.top).toBeCloseTo(25, 12);
  });
});

describe('shadow of a leaning cylinder through a plate, against D / cos a + t tan a', () => {
  const tube = { at: [0, 0] as Point, zAt: 0, diameter: 42.4, from: 0, to: 10 };
  it('42.4 at 12 degrees through 10 mm: 45.5 long, 42.4 wide', () => {
    const shadow = shadowOf({ ...tube, direction: leaning(12) });
    expect(shadow.length).toBeCloseTo(45.5, 1);
    expect(shadow.length).toBeCloseTo(42.4 / Math.cos(radians(12)) + 10 * Math.tan(radians(12)), 9);
    const box = boundsOfCurves(shadow.exact);
    expect(box.right - box.left).toBeCloseTo(shadow.length, 9);
    expect(box.top - box.bottom).toBeCloseTo(42.4, 9);
    const [a, b] = [21.2 / Math.cos(radians(12)), 21.2];
    expect(areaOfCurves(shadow.exact)).toBeCloseTo(Math.PI * a * b + 42.4 * 10 * Math.tan(radians(12)), 8);
  });
  it('6 mm plate at 8 degrees: 0.84 longer than the ellipse of a thin sheet', () => {
    const direction = leaning(8, 130);
    const plate = shadowOf({ ...tube, direction, to: 6 });
    const sheet = shadowOf({ ...tube, direction, to: 0 });
    expect(plate.length - sheet.length).toBeCloseTo(0.84, 2);
    expect(sheet.exact).toHaveLength(2);
    expect(areaOfCurves(sheet.exact)).toBeCloseTo((Math.PI * 21.2 * 21.2) / Math.cos(radians(8)), 8);
  });
  it('square to the plate: the circle itself', () => {
    const shadow = shadowOf({ ...tube, direction: [0, 0, -1], at: [3, 4] });
    expect(areaOf(shadow.loop)).toBeCloseTo(Math.PI * 21.2 ** 2, 9);
    expect(shadow.exact.every((piece) => piece.kind === 'arc')).toBe(true);
    expect(shadow.deviation).toBe(0);
  });
  it('does not mind which way along the axis, nor which face is named first', () => {
    const one = shadowOf({ ...tube, direction: leaning(15, 40) });
    const [x, y, z] = leaning(15, 40);
    const other = shadowOf({ ...tube, direction: [-x, -y, -z], from: 10, to: 0 });
    expect(areaOfCurves(other.exact)).toBeCloseTo(areaOfCurves(one.exact), 9);
    const [a, b] = [boundsOfCurves(one.exact), boundsOfCurves(other.exact)];
    expect(a.left).toBeCloseTo(b.left, 9);
    expect(a.top).toBeCloseTo(b.top, 9);
  });
  it('refuses an axis that lies in the plate', () => {
    expect(() => shadowOf({ ...tube, direction: [1, 0, 0] })).toThrow(/no hole/);
  });
  it('lets the cylinder pass: its wall at every level lies within the loop, and touches it somewhere', () => {
    const random = randomFrom(31);
    for (let i = 0; i < 40; i++) {
      const [lean, toward] = [random.between(0.5, 40), random.between(0, 360)];
      const [zAt, thickness, diameter] = [
        random.between(-5, 5),
        random.between(0, 14),
        random.between(20, 60),
      ];
      const direction = leaning(lean, toward);
      const at: Point = [random.between(-50, 50), random.between(-50, 50)];
      const [from, to] = [1, 1 + thickness];
      const shadow = shadowOf({ at, zAt, direction, diameter, from, to });
      expect(gapOf(shadow.exact)).toBeLessThan(1e-9);
      expect(gapOf(shadow.loop)).toBe(0);
      expect(sharpest(shadow.loop)).toBeLessThan(1e-8);
      expect(shadow.deviation).toBeLessThanOrEqual(0.01);
      // Two directions square to the axis carry the wall; lines along the axis meet every level.
      const [dx, dy, dz] = direction;
      const flat = Math.hypot(dx, dy);
      const across: Vector = [-dy / flat, dx / flat, 0];
      const along: Vector = [(dx * dz) / flat, (dy * dz) / flat, -flat];
      let nearest = Infinity;
      for (let k = 0; k < 90; k++) {
        const [c, s] = [Math.cos((k * Math.PI) / 45), Math.sin((k * Math.PI) / 45)];
        const wall = [0, 1, 2].map((j) => ((across[j] ?? 0) * c + (along[j] ?? 0) * s) * (diameter / 2));
        for (const z of [from, (from + to) / 2, to]) {
          const run = (z - zAt - (wall[2] ?? 0)) / dz;
          const point: Point = [at[0] + (wall[0] ?? 0) + dx * run, at[1] + (wall[1] ?? 0) + dy * run];
          const off = distanceTo(shadow.loop, point).distance;
          nearest = Math.min(nearest, off);
          expect(isInside(shadow.loop, point) || off < shadow.deviation + 1e-6).toBe(true);
        }
      }
      expect(nearest).toBeLessThan(0.011);
      const arcsOnly = shadow.loop.every(
        (piece) => piece.kind !== 'line' || distance(piece.from, piece.to) > 1e-6,
      );
      expect(arcsOnly).toBe(true);
    }
  });
});
