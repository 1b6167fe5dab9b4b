import { describe, expect, it } from 'vitest';
import { radians } from '../../src/base/numbers.js';
import { distance, type Point } from '../../src/base/points.js';
import { randomFrom } from '../../src/base/random.js';
import { arc, line, pointAt, reversed } from '../../src/geom/arcs.js';
import { boundsOfCurves } from '../../src/geom/bounds.js';
import { ellipseArc, ellipseCurves } from '../../src/geom/ellipse.js';
import {
  areaOf,
  areaOfCurves,
  boundsOf,
  circleLoop,
  crossingsOfLoops,
  distanceTo,
  gapOf,
  isInside,
  mirroredLoop,
  movedLoop,
  perimeterOf,
  reversedLoop,
  selfCrossings,
} from '../../src/geom/loops.js';
import type { Loop } from '../../src/geom/segments.js';
import { dShape, obround, roundedRectangle } from '../../src/geom/shapes.js';

/** A test of its own kind: the angle a fine polygon of the loop turns through as seen from the point. */
const turnsSeenFrom = (loop: Loop, [x, y]: Point): number => {
  let sum = 0;
  const points = loop.flatMap((piece) => Array.from({ length: 64 }, (_, i) => pointAt(piece, i / 64)));
  points.forEach(([ax, ay], i) => {
    const [bx, by] = points[(i + 1) % points.length] ?? [ax, ay];
    sum += Math.atan2((ax - x) * (by - y) - (ay - y) * (bx - x), (ax - x) * (bx - x) + (ay - y) * (by - y));
  });
  return sum / (2 * Math.PI);
};

describe('measures of loops, against closed forms', () => {
  it('circle: pi r^2, 2 pi r, its box', () => {
    const circle = circleLoop([7, -3], 12.5);
    expect(areaOf(circle)).toBeCloseTo(Math.PI * 12.5 ** 2, 9);
    expect(perimeterOf(circle)).toBeCloseTo(2 * Math.PI * 12.5, 9);
    expect(boundsOf(circle)).toEqual({ left: -5.5, bottom: -15.5, right: 19.5, top: 9.5 });
    expect(gapOf(circle)).toBe(0);
  });
  it('area of a clockwise loop is the negative of the same loop counter-clockwise', () => {
    const shape = dShape(38, 30, 'left', 6);
    expect(areaOf(reversedLoop(shape))).toBeCloseTo(-areaOf(shape), 9);
  });
  it('area and perimeter stay under turning, shifting and mirroring', () => {
    const shape = dShape(38, 30, 'left', 6);
    for (const other of [movedLoop(shape, radians(33), [100, -40]), mirroredLoop(shape, 5)]) {
      expect(areaOf(other)).toBeCloseTo(areaOf(shape), 8);
      expect(perimeterOf(other)).toBeCloseTo(perimeterOf(shape), 8);
      expect(gapOf(other)).toBeLessThan(1e-12);
    }
  });
  it('half of an ellipse: pi a b / 2', () => {
    const half = ellipseArc([4, 5], 9, 4, radians(30), 0, Math.PI);
    expect(areaOfCurves([half, line(half.to, half.from)])).toBeCloseTo((Math.PI * 9 * 4) / 2, 9);
  });
  it('box of a turned ellipse: sqrt(a^2 cos^2 + b^2 sin^2) each way', () => {
    const turn = radians(35);
    const box = boundsOfCurves(movedLoop(ellipseCurves(40, 26), turn, [3, 8]));
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    const [x, y] = [Math.hypot(20 * c, 13 * s), Math.hypot(20 * s, 13 * c)];
    expect(box.left).toBeCloseTo(3 - x, 9);
    expect(box.right).toBeCloseTo(3 + x, 9);
    expect(box.bottom).toBeCloseTo(8 - y, 9);
    expect(box.top).toBeCloseTo(8 + y, 9);
  });
  it('box of an arc reaches its outermost point, not only its ends', () => {
    const bow = arc([0, 0], 10, radians(60), radians(60));
    expect(boundsOf([bow, line(bow.to, bow.from)]).top).toBe(10);
    expect(boundsOf([reversed(bow)]).top).toBe(10);
    expect(boundsOf([bow]).bottom).toBeCloseTo(10 * Math.sin(radians(60)), 12);
  });
});

describe('inside a loop, against the angle seen from the point', () => {
  it('for 2000 points about shapes with convex and concave arcs', () => {
    const bite: Loop = [
      line([0, 0], [40, 0]),
      arc([40, 15], 15, radians(-90), radians(90)),
      line([55, 15], [55, 30]),
      arc([35, 30], 20, 0, radians(-180)),
      line([15, 30], [0, 30]),
      line([0, 30], [0, 0]),
    ];
    const big: Loop = [
      arc([0, 0], 20, radians(-60), radians(300)),
      line([-10, -17.320508075688775], [10, -17.320508075688775]),
    ];
    const random = randomFrom(11);
    let inside = 0;
    for (const loop of [bite, big, reversedLoop(bite), roundedRectangle(30, 20, 10)]) {
      for (let i = 0; i < 500; i++) {
        const point: Point = [random.between(-25, 60), random.between(-25, 40)];
        if (distanceTo(loop, point).distance < 0.05) continue;
        const turns = Math.round(turnsSeenFrom(loop, point));
        expect(isInside(loop, point), `${String(point)}`).toBe(turns !== 0);
        inside += turns === 0 ? 0 : 1;
      }
    }
    expect(inside).toBeGreaterThan(200);
  });
  it('for points on chords, level with joints and straight above or below them', () => {
    const circle = circleLoop([0, 0], 10);
    for (const point of [
      [0, 0],
      [5, 0],
      [-9.999, 0],
      [0, 9.999],
      [0, -9.999],
    ] as const) {
      expect(isInside(circle, point), String(point)).toBe(true);
      expect(isInside(movedLoop(circle, Math.PI / 2, [0, 0]), point), String(point)).toBe(true);
      expect(isInside(movedLoop(reversedLoop(circle), radians(45), [0, 0]), point), String(point)).toBe(true);
    }
    for (const point of [
      [10.001, 0],
      [-10.001, 0],
      [0, 10.001],
      [30, 0],
    ] as const) {
      expect(isInside(circle, point), String(point)).toBe(false);
    }
    const slot = obround(30, 10);
    for (const point of [
      [0, 0],
      [10, 2],
      [-10, -2],
      [14.9, 0],
    ] as const)
      expect(isInside(slot, point)).toBe(true);
    for (const point of [
      [0, 5.001],
      [0, -5.001],
      [15.001, 0],
      [-20, 5],
      [20, -5],
    ] as const) {
      expect(isInside(slot, point)).toBe(false);
    }
  });
});

describe('distance to a loop, against the nearest of many points on it', () => {
  it('for 300 points about a D', () => {
    const loop = dShape(40, 34, 'bottom', 8);
    const random = randomFrom(5);
    const many = loop.flatMap((piece) => Array.from({ length: 2000 }, (_, i) => pointAt(piece, i / 2000)));
    for (let i = 0; i < 300; i++) {
      const point: Point = [random.between(-40, 40), random.between(-40, 40)];
      const found = distanceTo(loop, point);
      const looked = Math.min(...many.map((other) => distance(point, other)));
      expect(found.distance).toBeLessThan(looked + 1e-9);
      expect(found.distance).toBeGreaterThan(looked - 0.03);
      expect(distance(found.nearest, point)).toBeCloseTo(found.distance, 9);
      expect(distanceTo(loop, found.nearest).distance).toBeLessThan(1e-9);
    }
  });
});

describe('where loops meet', () => {
  it('two circles of 10, centres 12 apart: two points 8 above and below, by Pythagoras', () => {
    const found = crossingsOfLoops(circleLoop([0, 0], 10), circleLoop([12, 0], 10)).sort(
      (a, b) => a[1] - b[1],
    );
    expect(found).toHaveLength(2);
    expect(distance(found[0] ?? [0, 0], [6, -8])).toBeLessThan(1e-9);
    expect(distance(found[1] ?? [0, 0], [6, 8])).toBeLessThan(1e-9);
  });
  it('touching circles, inside and outside: one point', () => {
    const outside = crossingsOfLoops(circleLoop([0, 0], 10), circleLoop([9, 12], 5));
    expect(outside).toHaveLength(1);
    expect(distance(outside[0] ?? [0, 0], [6, 8])).toBeLessThan(1e-9);
    const within = crossingsOfLoops(circleLoop([0, 0], 10), circleLoop([3, 4], 5));
    expect(within).toHaveLength(1);
    expect(distance(within[0] ?? [0, 0], [6, 8])).toBeLessThan(1e-9);
  });
  it('circles apart, and one within the other: none', () => {
    expect(crossingsOfLoops(circleLoop([0, 0], 10), circleLoop([20.01, 0], 10))).toEqual([]);
    expect(crossingsOfLoops(circleLoop([0, 0], 10), circleLoop([1, 0], 8.9))).toEqual([]);
  });
  it('a bow tie crosses itself once, in its middle; a sound shape nowhere', () => {
    const tie: Loop = [
      line([0, 0], [10, 10]),
      line([10, 10], [10, 0]),
      line([10, 0], [0, 10]),
      line([0, 10], [0, 0]),
    ];
    expect(selfCrossings(tie)).toHaveLength(1);
    expect(distance(selfCrossings(tie)[0] ?? [0, 0], [5, 5])).toBeLessThan(1e-9);
    for (const shape of [circleLoop([0, 0], 4), roundedRectangle(30, 20, 4), obround(30, 10)]) {
      expect(selfCrossings(shape)).toEqual([]);
    }
  });
  it('a loop left open tells its gap', () => {
    expect(gapOf([line([0, 0], [10, 0]), line([10, 0.5], [0, 10]), line([0, 10], [0, 0])])).toBeCloseTo(
      0.5,
      12,
    );
  });
});
