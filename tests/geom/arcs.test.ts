import { describe, expect, it } from 'vitest';
import { distance, dot, type Point } from '../../src/base/points.js';
import { radians } from '../../src/base/numbers.js';
import {
  arc,
  arcFromBulge,
  bulgeOf,
  lengthOf,
  line,
  mirrored,
  moved,
  partOf,
  placeOn,
  pointAt,
  reversed,
  tangentAt,
} from '../../src/geom/arcs.js';
import { ellipseArc } from '../../src/geom/ellipse.js';
import { areaOf } from '../../src/geom/loops.js';

const expectPoint = (found: Point, wanted: Point, within = 1e-9) => {
  expect(distance(found, wanted)).toBeLessThan(within);
};

describe('bulge of an arc, against the DXF reference (LWPOLYLINE group 42: tangent of a quarter of the included angle)', () => {
  const printed: readonly (readonly [number, number])[] = [
    [30, 0.131652498],
    [45, 0.198912367],
    [60, 0.267949192],
    [90, 0.414213562],
    [120, 0.577350269],
    [180, 1],
    [-90, -0.414213562],
  ];
  it.each(printed)('of %d degrees', (degrees, bulge) => {
    const cut = arc([3, -2], 7, radians(20), radians(degrees));
    expect(bulgeOf(cut)).toBeCloseTo(bulge, 9);
    const back = arcFromBulge(cut.from, cut.to, bulge);
    expect(lengthOf(back)).toBeCloseTo(7 * Math.abs(radians(degrees)), 7);
    if (back.kind === 'arc') expectPoint(back.centre, [3, -2], 1e-7);
    else expect.unreachable();
  });

  it('of chord 100 and bulge tan 22.5 degrees: radius, sagitta and area of the segment, by algebra of the definition', () => {
    const cut = arcFromBulge([0, 0], [100, 0], Math.tan(radians(22.5)));
    if (cut.kind !== 'arc') return expect.unreachable();
    expect(cut.radius).toBeCloseTo(70.710678, 6);
    expect(pointAt(cut, 0.5)[1]).toBeCloseTo(-20.710678, 6);
    expect(areaOf([cut, line([100, 0], [0, 0])])).toBeCloseTo(1426.9908, 4);
  });

  it('of a full circle of radius 10 as two vertices with bulge 1: area 314.1593', () => {
    const circle = [arcFromBulge([-10, 0], [10, 0], 1), arcFromBulge([10, 0], [-10, 0], 1)];
    expect(areaOf(circle)).toBeCloseTo(314.1593, 4);
  });

  it('of a line is 0, and 0 gives a line', () => {
    expect(bulgeOf(line([0, 0], [5, 1]))).toBe(0);
    expect(arcFromBulge([0, 0], [5, 1], 0)).toEqual(line([0, 0], [5, 1]));
  });
});

describe('points and directions of a cut, against the circle in closed form', () => {
  const cut = arc([10, 20], 5, radians(-30), radians(-200));
  it('runs from start over the sweep, clockwise when negative', () => {
    for (const t of [0, 0.25, 0.5, 1]) {
      const angle = radians(-30 - 200 * t);
      expectPoint(pointAt(cut, t), [10 + 5 * Math.cos(angle), 20 + 5 * Math.sin(angle)]);
      const along = tangentAt(cut, t);
      expectPoint(along, [Math.sin(angle), -Math.cos(angle)]);
    }
  });
  it('keeps square corners exact when turned by a quarter', () => {
    const turnedLine = moved(line([1, 2], [4, 2]), Math.PI / 2, [0, 0]);
    expect(turnedLine.from).toEqual([-2, 1]);
    expect(turnedLine.to).toEqual([-2, 4]);
  });
  it('travels back over the same points', () => {
    const back = reversed(cut);
    for (const t of [0, 0.3, 1]) {
      expectPoint(pointAt(back, t), pointAt(cut, 1 - t));
      expect(dot(tangentAt(back, t), tangentAt(cut, 1 - t))).toBeCloseTo(-1, 12);
    }
  });
  it('turns, shifts and mirrors an arc of an ellipse point by point', () => {
    const piece = ellipseArc([3, 1], 8, 5, radians(25), radians(40), radians(-130));
    const there = moved(piece, radians(70), [2, -6]);
    const seen = mirrored(piece, 4);
    const back = reversed(piece);
    for (const t of [0, 0.2, 0.7, 1]) {
      const [x, y] = pointAt(piece, t);
      const [c, s] = [Math.cos(radians(70)), Math.sin(radians(70))];
      expectPoint(pointAt(there, t), [c * x - s * y + 2, s * x + c * y - 6]);
      expectPoint(pointAt(seen, t), [8 - x, y]);
      expectPoint(pointAt(back, 1 - t), [x, y]);
      // Direction against a small step along the curve.
      const step = 1e-6;
      const [px, py] = pointAt(
        { ...piece, from: piece.from, sweep: piece.sweep },
        t === 1 ? 1 - step : t + step,
      );
      const along = t === 1 ? [x - px, y - py] : [px - x, py - y];
      const size = Math.hypot(along[0] ?? 0, along[1] ?? 0);
      expectPoint(tangentAt(piece, t), [(along[0] ?? 0) / size, (along[1] ?? 0) / size], 1e-5);
    }
  });
  it('finds where a point lies on it, and that a point beside it does not', () => {
    for (const t of [0, 0.1, 0.5, 0.99, 1]) expect(placeOn(cut, pointAt(cut, t))).toBeCloseTo(t, 9);
    const [x, y] = pointAt(cut, 0.4);
    expect(placeOn(cut, [x + 1e-3, y])).toBeNaN();
    expect(placeOn(cut, pointAt({ ...cut, sweep: radians(-220) }, 0.97))).toBeNaN();
    expect(placeOn(line([0, 0], [10, 0]), [12, 0])).toBeNaN();
  });
  it('cuts a part out of itself', () => {
    const part = partOf(cut, 0.25, 0.75);
    expect(lengthOf(part)).toBeCloseTo(lengthOf(cut) / 2, 12);
    expectPoint(pointAt(part, 0.5), pointAt(cut, 0.5));
  });
});
