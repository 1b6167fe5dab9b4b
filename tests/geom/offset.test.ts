import { describe, expect, it } from 'vitest';
import { radians } from '../../src/base/numbers.js';
import { randomFrom } from '../../src/base/random.js';
import { pointAt } from '../../src/geom/arcs.js';
import { difference, union } from '../../src/geom/combine.js';
import { roundedPolygon } from '../../src/geom/hulls.js';
import {
  areaOf,
  circleLoop,
  distanceTo,
  gapOf,
  isInside,
  movedLoop,
  perimeterOf,
  selfCrossings,
} from '../../src/geom/loops.js';
import { grow, offset } from '../../src/geom/offset.js';
import type { Loop, Region } from '../../src/geom/segments.js';
import { roundedRectangle } from '../../src/geom/shapes.js';
import { areaDoubt, polygonKernel, sectionGrown, sectionOf } from '../support/polygon-kernel.js';
import { trialPads } from '../support/trial-pads.js';

const area = (region: Region): number => region.reduce((sum, loop) => sum + areaOf(loop), 0);
const ell: Loop = roundedPolygon(
  [
    [0, 0],
    [60, 0],
    [60, 20],
    [20, 20],
    [20, 50],
    [0, 50],
  ],
  0,
);

describe('one loop moved out or in, against closed forms', () => {
  it('a sharp square of 20 by 5: Steiner out, a smaller square in', () => {
    const square = roundedRectangle(20, 20, 0);
    expect(areaOf(grow(square, 5))).toBeCloseTo(400 + 80 * 5 + 25 * Math.PI, 9);
    const inner = grow(square, -5);
    expect(inner).toHaveLength(4);
    expect(areaOf(inner)).toBeCloseTo(100, 9);
  });
  it('an L out by 6: A + P g + 5 quarter discs, less the square where the strips of the concave corner overlap', () => {
    // Five convex corners of a quarter disc each; in the concave one the two strips overlap in a g x g square.
    const grown = grow(ell, 6);
    expect(areaOf(grown)).toBeCloseTo(areaOf(ell) + perimeterOf(ell) * 6 + (5 / 4) * Math.PI * 36 - 36, 9);
    expect(grown.filter((piece) => piece.kind === 'arc')).toHaveLength(5);
  });
  it('an L in by 6: the strips of its sides, a quarter disc about the concave corner', () => {
    const shrunk = grow(ell, -6);
    // Legs 8 wide; the concave corner keeps a disc of 6 away.
    expect(shrunk.filter((piece) => piece.kind === 'arc')).toHaveLength(1);
    const blunt = (60 - 12) * 8 + (50 - 12 - 8) * 8;
    expect(areaOf(shrunk)).toBeCloseTo(blunt + (1 - Math.PI / 4) * 36, 9);
  });
  it('a concave arc of 10 grown by 4 becomes one of 6, by 12 a corner', () => {
    const bitten = difference([roundedRectangle(80, 40, 3)], [circleLoop([0, 20], 10)])[0] ?? [];
    const by4 = grow(bitten, 4).filter((piece) => piece.kind === 'arc' && piece.sweep < 0);
    expect(by4.map((piece) => piece.kind === 'arc' && piece.radius)).toEqual([6]);
    expect(grow(bitten, 12).some((piece) => piece.kind === 'arc' && piece.sweep < 0)).toBe(false);
  });
  it('a dumb-bell shrunk past its neck comes apart, and grow says so', () => {
    const bell = union([[circleLoop([-20, 0], 12)], [circleLoop([20, 0], 12)], [roundedRectangle(40, 6, 0)]]);
    expect(offset(bell, -4)).toHaveLength(2);
    // Each disc of 8 runs out into the mouth of the neck, between discs of 4 about the mouth's two corners.
    const mouth = Math.asin(3 / 12);
    const tip = 12 * Math.cos(mouth) - Math.sqrt(16 - 9);
    const atCorner = Math.acos((144 + 16 - tip ** 2) / (2 * 12 * 4));
    const horn = 3 * tip - 16 * atCorner;
    expect(area(offset(bell, -4))).toBeCloseTo(2 * (64 * (Math.PI - mouth) + horn), 8);
    expect(() => grow(bell[0] ?? [], -4)).toThrow(/2 pieces/);
    expect(() => grow(bell[0] ?? [], -13)).toThrow(/0 pieces/);
  });
  it('a ring: both edges move, and the hole closes when its radius is spent', () => {
    const ring = difference([circleLoop([0, 0], 20)], [circleLoop([2, 0], 8)]);
    expect(area(offset(ring, 3))).toBeCloseTo(Math.PI * (23 ** 2 - 5 ** 2), 8);
    expect(area(offset(ring, -3))).toBeCloseTo(Math.PI * (17 ** 2 - 11 ** 2), 8);
    expect(offset(ring, 9)).toHaveLength(1);
    expect(area(offset(ring, 9))).toBeCloseTo(Math.PI * 29 ** 2, 8);
  });
  it('a slot exactly twice the growth wide closes but for a notch at its mouth', () => {
    const slotted = difference(
      [roundedRectangle(60, 40, 0)],
      [movedLoop(roundedRectangle(8, 30, 0), 0, [0, 10])],
    );
    const grown = offset(slotted, 4);
    // All that is left of the slot is the notch between the two round corners of its mouth.
    const notch = 8 * 4 - (Math.PI * 16) / 2;
    expect(area(grown)).toBeCloseTo(60 * 40 + 200 * 4 + Math.PI * 16 - notch, 4);
  });
});

describe('random flanges with holes, grown and shrunk', () => {
  const flanges = (seed: number, count: number): Region[] => {
    const random = randomFrom(seed);
    return Array.from({ length: count }, (_, i) => {
      const pads = trialPads(random, i % 2 === 0);
      const plate = union(pads.map((pad) => [pad]));
      const holes = Array.from({ length: 4 }, () =>
        movedLoop(circleLoop([0, 0], random.between(3, 14)), 0, [
          random.between(-20, 150),
          random.between(-25, 25),
        ]),
      );
      return difference(plate, union(holes.map((hole) => [hole])));
    });
  };
  it('areas equal those of fine polygons offset by Clipper2, within the chords error: 30 flanges', async () => {
    const kernel = await polygonKernel();
    const random = randomFrom(8);
    for (const region of flanges(81, 30)) {
      const by = random.pick([-9, -4.5, -1, 2, 5, 11]);
      const moved = offset(region, by);
      const other = sectionGrown(sectionOf(kernel, region), by);
      expect(Math.abs(area(moved) - other.area()), `by ${String(by)}`).toBeLessThan(areaDoubt(region, moved));
      for (const loop of moved) {
        expect(gapOf(loop)).toBe(0);
        expect(selfCrossings(loop)).toEqual([]);
      }
    }
  });
  it('every point of the new edge is just so far from the old one, on its right side: 30 flanges', () => {
    const random = randomFrom(9);
    for (const region of flanges(82, 30)) {
      const by = random.pick([-6, -2, 3, 8]);
      for (const piece of offset(region, by).flat()) {
        const point = pointAt(piece, random.between(0.01, 0.99));
        const off = Math.min(...region.map((loop) => distanceTo(loop, point).distance));
        expect(Math.abs(off - Math.abs(by))).toBeLessThan(3e-6);
        const turns = region
          .filter((loop) => isInside(loop, point))
          .reduce((sum, loop) => sum + Math.sign(areaOf(loop)), 0);
        expect(turns > 0).toBe(by < 0);
      }
    }
  });
  it('turning a region by some angle turns what comes out', () => {
    const [region] = flanges(83, 1);
    if (!region) return expect.unreachable();
    const turnedRegion = region.map((loop) => movedLoop(loop, radians(37), [12, -5]));
    expect(area(offset(turnedRegion, -3))).toBeCloseTo(area(offset(region, -3)), 6);
  });
});
