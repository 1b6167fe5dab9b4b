import { describe, expect, it } from 'vitest';
import { cross, distance, dot, type Point } from '../../src/base/points.js';
import { randomFrom } from '../../src/base/random.js';
import { tangentAt } from '../../src/geom/arcs.js';
import { grownConvex, isConvex } from '../../src/geom/convex.js';
import { hullOfDiscs, roundedPolygon, stadium } from '../../src/geom/hulls.js';
import {
  areaOf,
  boundsOf,
  distanceTo,
  gapOf,
  isInside,
  perimeterOf,
  selfCrossings,
} from '../../src/geom/loops.js';
import type { Loop } from '../../src/geom/segments.js';
import { dShape, obround, roundedRectangle } from '../../src/geom/shapes.js';

/** The sharpest corner of a loop, as the sine of the turn. */
const sharpest = (loop: Loop): number =>
  Math.max(
    ...loop.map((piece, i) => {
      const [a, b] = [tangentAt(piece, 1), tangentAt(loop[(i + 1) % loop.length] ?? piece, 0)];
      return dot(a, b) < 0 ? 2 : Math.abs(cross(a, b));
    }),
  );
const expectSound = (loop: Loop) => {
  expect(gapOf(loop)).toBe(0);
  expect(selfCrossings(loop)).toEqual([]);
  expect(areaOf(loop)).toBeGreaterThan(0);
};
const boxOf = (loop: Loop): readonly [number, number] => {
  const { left, right, bottom, top } = boundsOf(loop);
  return [right - left, top - bottom];
};

describe('rounded rectangle and obround, against b h - (4 - pi) r^2', () => {
  it.each([
    [38, 34, 12],
    [38, 34, 17],
    [20, 44, 10],
    [30, 30, 15],
    [30, 20, 0],
  ])('%d x %d with corners of %d', (width, height, corner) => {
    const loop = roundedRectangle(width, height, corner);
    expectSound(loop);
    expect(areaOf(loop)).toBeCloseTo(width * height - (4 - Math.PI) * corner ** 2, 9);
    expect(perimeterOf(loop)).toBeCloseTo(2 * (width + height) - (8 - 2 * Math.PI) * corner, 9);
    expect(boxOf(loop)[0]).toBeCloseTo(width, 12);
    expect(boxOf(loop)[1]).toBeCloseTo(height, 12);
    if (corner > 0) expect(sharpest(loop)).toBeLessThan(1e-9);
  });
  it('obround 45 x 30: rectangle and circle', () => {
    expect(areaOf(obround(45, 30))).toBeCloseTo(15 * 30 + Math.PI * 15 ** 2, 9);
    expect(obround(45, 30)).toHaveLength(4);
  });
  it('refuses a corner that does not fit', () => {
    expect(() => roundedRectangle(30, 20, 10.1)).toThrow(/corner of 10.1/);
    expect(() => obround(20, 30)).toThrow(/obround/);
  });
});

describe('D shape', () => {
  it('deep enough: half disc, straight sides and two quarter corners, summed', () => {
    const loop = dShape(40, 34, 'bottom', 8);
    expectSound(loop);
    expect(sharpest(loop)).toBeLessThan(1e-9);
    const below = 34 - 20;
    expect(areaOf(loop)).toBeCloseTo((Math.PI * 20 ** 2) / 2 + 40 * below - (2 - Math.PI / 2) * 8 ** 2, 9);
    expect(boxOf(loop)[1]).toBeCloseTo(34, 12);
  });
  it('shallow with sharp corners: a circular segment of chord 40 and rise 12', () => {
    const loop = dShape(40, 12, 'bottom', 0);
    const r = (20 ** 2 + 12 ** 2) / 24;
    const sweep = 2 * Math.asin(20 / r);
    expect(areaOf(loop)).toBeCloseTo((r * r * (sweep - Math.sin(sweep))) / 2, 9);
  });
  it('is tangent all round, keeps its box and joins the two forms without a step, over the shop range', () => {
    const random = randomFrom(3);
    for (let i = 0; i < 200; i++) {
      const width = random.between(20, 60);
      const corner = random.between(0.5, width / 2 - 0.5);
      const height = random.between(2 * corner + 1, 70);
      const loop = dShape(width, height, 'bottom', corner);
      expectSound(loop);
      expect(sharpest(loop)).toBeLessThan(1e-9);
      expect(isConvex(loop)).toBe(true);
      expect(boxOf(loop)[0]).toBeCloseTo(width, 9);
      expect(boxOf(loop)[1]).toBeCloseTo(height, 9);
    }
    const limit = 40 / 2 + 8;
    expect(areaOf(dShape(40, limit - 1e-7, 'bottom', 8))).toBeCloseTo(
      areaOf(dShape(40, limit + 1e-7, 'bottom', 8)),
      4,
    );
  });
  it('lies with its flat where asked; the box stays width by height', () => {
    const flats = { bottom: [0, -15], top: [0, 15], left: [-20, 0], right: [20, 0] } as const;
    for (const flat of ['bottom', 'top', 'left', 'right'] as const) {
      const loop = dShape(40, 30, flat, 5);
      expect(boxOf(loop)[0]).toBeCloseTo(40, 9);
      expect(boxOf(loop)[1]).toBeCloseTo(30, 9);
      const straight = loop.filter((piece) => piece.kind === 'line');
      const onFlat = straight.some((piece) => {
        const [x, y] = [(piece.from[0] + piece.to[0]) / 2, (piece.from[1] + piece.to[1]) / 2];
        return distance([x, y], flats[flat]) < 1e-9;
      });
      expect(onFlat, flat).toBe(true);
    }
  });
  it('refuses corners that do not fit', () => {
    expect(() => dShape(40, 15, 'bottom', 8)).toThrow(/15 deep/);
    expect(() => dShape(40, 50, 'bottom', 21)).toThrow(/40 broad/);
  });
});

describe('belts', () => {
  it('round two equal discs: the bar 2 r L + pi r^2', () => {
    const bar = stadium([3, 4], [30, 40], 9);
    expectSound(bar);
    expect(areaOf(bar)).toBeCloseTo(2 * 9 * 45 + Math.PI * 81, 9);
  });
  it('round two discs of 10 and 4, 25 apart: open-belt length, a textbook formula', () => {
    const belt = hullOfDiscs([
      { at: [0, 0], radius: 10 },
      { at: [25, 0], radius: 4 },
    ]);
    const lean = Math.asin(6 / 25);
    // Open belt: 2 d cos a + pi (R + r) + 2 a (R - r).
    expect(perimeterOf(belt)).toBeCloseTo(2 * 25 * Math.cos(lean) + Math.PI * 14 + 2 * lean * 6, 9);
    expectSound(belt);
  });
  it('round n equal touching discs: perimeter 2 r (n + pi)', () => {
    for (const n of [3, 4, 5, 6, 7]) {
      const ring = Array.from({ length: n }, (_, i): { at: Point; radius: number } => {
        const a = (2 * Math.PI * i) / n;
        const pitch = 21.2 / Math.sin(Math.PI / n);
        return { at: [pitch * Math.cos(a), pitch * Math.sin(a)], radius: 21.2 };
      });
      const belt = hullOfDiscs(ring);
      expect(perimeterOf(belt)).toBeCloseTo(2 * 21.2 * (n + Math.PI), 8);
      expectSound(belt);
    }
  });
  it('round random discs: holds them all, touches what it leans on, never turns right', () => {
    const random = randomFrom(17);
    for (let i = 0; i < 100; i++) {
      const discs = Array.from({ length: random.whole(1, 9) }, () => ({
        at: [random.whole(-5, 5) * 10, random.whole(-3, 3) * 10] as Point,
        radius: random.whole(0, 4) * 4 + 2,
      }));
      const belt = hullOfDiscs(discs);
      expectSound(belt);
      expect(isConvex(belt)).toBe(true);
      for (const { at, radius } of discs) {
        expect(isInside(belt, at)).toBe(true);
        expect(distanceTo(belt, at).distance).toBeGreaterThan(radius - 1e-9);
      }
      for (const piece of belt) {
        if (piece.kind === 'arc') expect(discs.some((d) => distance(d.at, piece.centre) < 1e-9)).toBe(true);
      }
    }
  });
  it('round discs in a row: one line along all of them', () => {
    for (const way of [1, -1]) {
      const row = [0, 20, 40, 70].map((x) => ({ at: [x * way, 5] as Point, radius: 8 }));
      expect(hullOfDiscs(row)).toHaveLength(4);
    }
  });
  it('one disc, and a disc that holds the others, give the circle', () => {
    expect(areaOf(hullOfDiscs([{ at: [1, 2], radius: 5 }]))).toBeCloseTo(25 * Math.PI, 9);
    const holds = [
      { at: [1, 0] as Point, radius: 2 },
      { at: [0, 0] as Point, radius: 5 },
    ];
    expect(areaOf(hullOfDiscs(holds))).toBeCloseTo(25 * Math.PI, 9);
  });
});

describe('polygon with rounded corners', () => {
  it('a square of 20 with corners of 3 is the rounded square', () => {
    const square: Point[] = [
      [-10, -10],
      [10, -10],
      [10, 10],
      [-10, 10],
    ];
    expect(areaOf(roundedPolygon(square, 3))).toBeCloseTo(areaOf(roundedRectangle(20, 20, 3)), 9);
  });
  it('an L, concave corner rounded the other way: each corner gives or takes r^2 (1 - pi / 4)', () => {
    const ell: Point[] = [
      [0, 0],
      [30, 0],
      [30, 10],
      [10, 10],
      [10, 30],
      [0, 30],
    ];
    const loop = roundedPolygon(ell, [2, 2, 2, 5, 2, 0]);
    expectSound(loop);
    expect(areaOf(loop)).toBeCloseTo(500 + (25 - 4 * 4) * (1 - Math.PI / 4), 9);
  });
  it('refuses roundings too large for a side', () => {
    const square: Point[] = [
      [0, 0],
      [10, 0],
      [10, 10],
      [0, 10],
    ];
    expect(() => roundedPolygon(square, 5.5)).toThrow(/1 mm too short/);
  });
});

describe('a convex loop moved outward, against Steiner: area + perimeter g + pi g^2', () => {
  it.each([
    ['rounded rectangle', roundedRectangle(38, 34, 12)],
    ['sharp rectangle', roundedRectangle(38, 34, 0)],
    ['shallow D', dShape(40, 20, 'left', 3)],
    [
      'belt',
      hullOfDiscs([
        { at: [0, 0], radius: 10 },
        { at: [25, 3], radius: 4 },
      ]),
    ],
  ])('%s by 8.5', (_, loop) => {
    const grown = grownConvex(loop, 8.5);
    expectSound(grown);
    expect(areaOf(grown)).toBeCloseTo(areaOf(loop) + perimeterOf(loop) * 8.5 + Math.PI * 8.5 ** 2, 8);
    expect(perimeterOf(grown)).toBeCloseTo(perimeterOf(loop) + 2 * Math.PI * 8.5, 8);
  });
  it('and back again gives the same area', () => {
    const loop = roundedRectangle(38, 34, 12);
    expect(areaOf(grownConvex(grownConvex(loop, 5), -5))).toBeCloseTo(areaOf(loop), 9);
    expect(() => grownConvex(loop, -12)).toThrow(/radius 12 or less/);
  });
});
