import { describe, expect, it } from 'vitest';
import { radians } from '../../src/base/numbers.js';
import type { Point } from '../../src/base/points.js';
import { randomFrom, type Random } from '../../src/base/random.js';
import { arcFromBulge, reversed } from '../../src/geom/arcs.js';
import { difference, intersection, union } from '../../src/geom/combine.js';
import { hullOfDiscs } from '../../src/geom/hulls.js';
import { areaOf, circleLoop, gapOf, movedLoop, perimeterOf, selfCrossings } from '../../src/geom/loops.js';
import type { Loop, Region } from '../../src/geom/segments.js';
import { obround, roundedRectangle } from '../../src/geom/shapes.js';
import { areaDoubt, polygonKernel, sectionOf } from '../support/polygon-kernel.js';

const area = (region: Region): number => region.reduce((sum, loop) => sum + areaOf(loop), 0);
const expectSound = (region: Region) => {
  for (const loop of region) {
    expect(gapOf(loop)).toBe(0);
    expect(selfCrossings(loop)).toEqual([]);
  }
};
const square = (x: number, y: number, side: number): Loop =>
  movedLoop(roundedRectangle(side, side, 0), 0, [x + side / 2, y + side / 2]);

describe('two loops, against closed forms', () => {
  it('circles of 10 with centres 12 apart: the lens 2 r^2 acos(d / 2r) - d / 2 sqrt(4 r^2 - d^2)', () => {
    const [a, b] = [[circleLoop([0, 0], 10)], [circleLoop([12, 0], 10)]];
    const lens = 200 * Math.acos(0.6) - 6 * Math.sqrt(400 - 144);
    expect(area(intersection(a, b))).toBeCloseTo(lens, 9);
    expect(area(union([a, b]))).toBeCloseTo(200 * Math.PI - lens, 9);
    expect(area(difference(a, b))).toBeCloseTo(100 * Math.PI - lens, 9);
    expect(union([a, b])[0]).toHaveLength(2);
  });
  it('squares that share part of an edge run together and leave no seam', () => {
    const both = union([[square(0, 0, 10)], [square(10, 4, 10)]]);
    expect(both).toHaveLength(1);
    expect(both[0]).toHaveLength(8);
    expect(area(both)).toBeCloseTo(200, 9);
    expect(perimeterOf(both[0] ?? [])).toBeCloseTo(80 - 2 * 6, 9);
    expect(intersection([square(0, 0, 10)], [square(10, 4, 10)])).toEqual([]);
  });
  it('squares that make one longer rectangle become its four lines', () => {
    const both = union([[square(0, 0, 10)], [square(10, 0, 10)], [square(20, 0, 10)]]);
    expect(both).toHaveLength(1);
    expect(both[0]).toHaveLength(4);
  });
  it('a shape with itself, in whatever order of pieces', () => {
    const shape = roundedRectangle(30, 20, 6);
    const rolled = [...shape.slice(3), ...shape.slice(0, 3)];
    for (const other of [shape, rolled]) {
      expect(area(union([[shape], [other]]))).toBeCloseTo(areaOf(shape), 9);
      expect(area(intersection([shape], [other]))).toBeCloseTo(areaOf(shape), 9);
      expect(difference([shape], [other])).toEqual([]);
    }
  });
  it('a hole within, and the plug put back', () => {
    const plate: Region = [roundedRectangle(60, 40, 5)];
    const hole: Region = [circleLoop([5, 3], 12)];
    const cut = difference(plate, hole);
    expect(cut).toHaveLength(2);
    expect(area(cut)).toBeCloseTo(area(plate) - 144 * Math.PI, 9);
    const again = union([cut, hole]);
    expect(again).toHaveLength(1);
    expect(area(again)).toBeCloseTo(area(plate), 9);
    expect(area(intersection(cut, hole))).toBe(0);
  });
  it('a bar whose sides are tangent to its end discs runs into them without a trace', () => {
    const bar: Region = [roundedRectangle(50, 20, 0)];
    const all = union([bar, [circleLoop([-25, 0], 10)], [circleLoop([25, 0], 10)]]);
    expect(all).toHaveLength(1);
    expect(all[0]).toHaveLength(4);
    expect(area(all)).toBeCloseTo(areaOf(obround(70, 20)), 9);
  });
  it('touching discs stay two loops, and a hole touching the edge stays a hole', () => {
    const touching = union([[circleLoop([0, 0], 10)], [circleLoop([18, 24], 20)]]);
    expect(touching).toHaveLength(2);
    expect(area(touching)).toBeCloseTo(500 * Math.PI, 9);
    const cut = difference([circleLoop([0, 0], 10)], [circleLoop([3, 4], 5)]);
    expect(cut).toHaveLength(2);
    expect(area(cut)).toBeCloseTo(75 * Math.PI, 9);
  });
  it('the five dark squares of a 3 x 3 board, which meet in corners only, stay five loops', () => {
    const dark = [
      [0, 0],
      [20, 0],
      [10, 10],
      [0, 20],
      [20, 20],
    ] as const;
    const board = union(dark.map(([x, y]) => [square(x, y, 10)]));
    expect(board).toHaveLength(5);
    for (const loop of board) expect(areaOf(loop)).toBeCloseTo(100, 9);
  });
  it('three lenses that share both their tips, like slices of an orange, stay three', () => {
    const bow = (bulge: number) => arcFromBulge([0, -10], [0, 10], bulge);
    const slices = [
      [-0.9, -0.5],
      [-0.2, 0.1],
      [0.4, 0.8],
    ].map(([left = 0, right = 0]): Loop => [bow(right), reversed(bow(left))]);
    const all = union(slices.map((slice) => [slice]));
    expect(all).toHaveLength(3);
    const sizes = (region: Region) => region.map(areaOf).sort((a, b) => a - b);
    sizes(all).forEach((found, i) => expect(found).toBeCloseTo(sizes(slices)[i] ?? NaN, 9));
    expect(Math.min(...sizes(all))).toBeGreaterThan(0);
    // A cut through the middle leaves three halves, and three more.
    expect(difference(all, [movedLoop(roundedRectangle(60, 2, 0), 0, [0, 0])])).toHaveLength(6);
  });
  it('a square and itself turned so little that their edges part by about the tolerance: no slivers, no failure', () => {
    const whole = [square(0, 0, 20)];
    for (const apart of [2e-7, 9.9e-7, 1e-6, 1.01e-6, 1.5e-6, 2.4e-6, 3.9e-6]) {
      const turned = [movedLoop(square(0, 0, 20), apart / 20, [0, 0])];
      expect(difference(whole, turned), String(apart)).toEqual([]);
      expect(Math.abs(area(union([whole, turned])) - 400)).toBeLessThan(20 * apart + 1e-9);
      expect(Math.abs(area(intersection(whole, turned)) - 400)).toBeLessThan(20 * apart + 1e-9);
    }
  });
  it('refuses a loop that is open, naming the place', () => {
    const open = square(0, 0, 10).slice(1);
    expect(() => union([[open], [circleLoop([10, 5], 2)]])).toThrow(/cannot close the outline at \(/);
  });
  it('discs apart', () => {
    const [a, b] = [[circleLoop([0, 0], 10)], [circleLoop([30, 0], 10)]];
    expect(union([a, b])).toHaveLength(2);
    expect(intersection(a, b)).toEqual([]);
    expect(area(difference(a, b))).toBeCloseTo(100 * Math.PI, 9);
    expect(union([])).toEqual([]);
  });
  it('four equal discs touching in a ring leave a star between them of (4 - pi) r^2, and it is a hole of that ring', () => {
    const r = 21.2;
    const ring = (
      [
        [-r, -r],
        [r, -r],
        [r, r],
        [-r, r],
      ] as Point[]
    ).map((at) => [circleLoop(at, r)]);
    const core = union([...ring, [square(-r, -r, 2 * r)]]);
    expect(area(core)).toBeCloseTo(4 * Math.PI * r * r + (4 - Math.PI) * r * r, 8);
    // Published for four 42.4 tubes in a square merge: star void 385.8026 mm^2.
    expect(area(core) - 4 * Math.PI * r * r).toBeCloseTo(385.8026, 4);
  });
});

/** Shapes on a 5 mm grid, so that edges coincide, touch and meet in one point as often as not. */
function gridShape(random: Random): Loop {
  const grid = () => random.whole(-4, 4) * 5;
  const make = (): Loop => {
    switch (random.whole(0, 4)) {
      case 0:
        return circleLoop([0, 0], random.whole(1, 4) * 5);
      case 1:
        return roundedRectangle(random.whole(2, 6) * 5, random.whole(2, 6) * 5, 0);
      case 2:
        return roundedRectangle(random.whole(2, 6) * 5, random.whole(2, 6) * 5, 5);
      case 3:
        return obround(random.whole(3, 8) * 5, 5 * random.whole(2, 3));
      default:
        return hullOfDiscs([
          { at: [0, 0], radius: 5 },
          { at: [grid(), grid()], radius: 5 * random.whole(1, 2) },
        ]);
    }
  };
  const turn = random.chance(0.3) ? (random.whole(0, 3) * Math.PI) / 2 : random.chance(0.2) ? radians(45) : 0;
  return movedLoop(make(), turn, [grid(), grid()]);
}
const gridRegion = (random: Random): Region =>
  union(Array.from({ length: random.whole(1, 3) }, () => [gridShape(random)]));

describe('random regions of shapes on a grid', () => {
  it('|A or B| = |A| + |B| - |A and B|, |A not B| = |A| - |A and B|, and the parts make the whole: 400 pairs', () => {
    const random = randomFrom(71);
    for (let i = 0; i < 400; i++) {
      const [a, b] = [gridRegion(random), gridRegion(random)];
      const [either, both, aOnly, bOnly] = [
        union([a, b]),
        intersection(a, b),
        difference(a, b),
        difference(b, a),
      ];
      // What lies within the same-point tolerance of an edge may fall to either side.
      const doubt = 1e-4;
      expect(Math.abs(area(either) - (area(a) + area(b) - area(both))), `pair ${String(i)}`).toBeLessThan(
        doubt,
      );
      expect(Math.abs(area(aOnly) - (area(a) - area(both))), `pair ${String(i)}`).toBeLessThan(doubt);
      expect(Math.abs(area(union([aOnly, bOnly, both])) - area(either)), `pair ${String(i)}`).toBeLessThan(
        doubt,
      );
      expectSound([...either, ...both, ...aOnly, ...bOnly]);
    }
  });
  it('areas equal those of fine polygons combined by Clipper2, within the chords error: 60 pairs', async () => {
    const kernel = await polygonKernel();
    const random = randomFrom(72);
    for (let i = 0; i < 60; i++) {
      const [a, b] = [gridRegion(random), gridRegion(random)];
      const [pa, pb] = [sectionOf(kernel, a), sectionOf(kernel, b)];
      const doubt = areaDoubt(a, b);
      expect(Math.abs(area(union([a, b])) - pa.add(pb).area())).toBeLessThan(doubt);
      expect(Math.abs(area(intersection(a, b)) - pa.intersect(pb).area())).toBeLessThan(doubt);
      expect(Math.abs(area(difference(a, b)) - pa.subtract(pb).area())).toBeLessThan(doubt);
    }
  });
});
