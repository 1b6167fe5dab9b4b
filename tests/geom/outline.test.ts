import { describe, expect, it } from 'vitest';
import { randomFrom } from '../../src/base/random.js';
import { lengthOf, pointAt } from '../../src/geom/arcs.js';
import { turnAtJoint } from '../../src/geom/convex.js';
import { leastNeck } from '../../src/geom/least-neck.js';
import {
  areaOf,
  boundsOf,
  circleLoop,
  distanceTo,
  gapOf,
  isInside,
  movedLoop,
  reversedLoop,
  selfCrossings,
} from '../../src/geom/loops.js';
import { plateOutline } from '../../src/geom/outline.js';
import type { Loop } from '../../src/geom/segments.js';
import { obround, roundedRectangle } from '../../src/geom/shapes.js';
import { areaDoubt, polygonArea, polygonKernel, sectionGrown, sectionOf } from '../support/polygon-kernel.js';
import { trialPads } from '../support/trial-pads.js';

describe('outline of pads with concave corners rounded, against closed forms', () => {
  it('two discs of 12, centres 30 apart, fillet 10: tangent arcs by the triangle of the centres', () => {
    const { outline, pieces } = plateOutline([circleLoop([0, 0], 12), circleLoop([30, 0], 12)], 10);
    expect(pieces).toBe(1);
    expect(outline).toHaveLength(4);
    // A fillet's centre stands 22 from both centres: sqrt(22^2 - 15^2) above the middle.
    const height = Math.sqrt(22 ** 2 - 15 ** 2);
    const fillets = outline.filter((piece) => piece.kind === 'arc' && piece.sweep < 0);
    expect(fillets).toHaveLength(2);
    for (const fillet of fillets) {
      if (fillet.kind !== 'arc') return expect.unreachable();
      expect(fillet.radius).toBeCloseTo(10, 9);
      expect(fillet.centre[0]).toBeCloseTo(15, 9);
      expect(Math.abs(fillet.centre[1])).toBeCloseTo(height, 9);
      expect(Math.abs(fillet.sweep)).toBeCloseTo(2 * Math.asin(15 / 22), 9);
    }
    // Kite of the four centres, plus what is left of the discs, less the two sectors of the fillets.
    const kite = 30 * height;
    const half = Math.acos(15 / 22);
    const discs = 2 * 144 * (Math.PI - half);
    expect(areaOf(outline)).toBeCloseTo(kite + discs - 2 * 100 * Math.asin(15 / 22), 8);
  });
  it('the same discs farther apart than fillets of 10 can bridge are two pieces', () => {
    // The fillets' circles touch each other where sqrt(22^2 - (d / 2)^2) = 10.
    const limit = 2 * Math.sqrt(22 ** 2 - 10 ** 2);
    const at = (d: number) => plateOutline([circleLoop([0, 0], 12), circleLoop([d, 0], 12)], 10);
    expect(at(limit - 0.001).pieces).toBe(1);
    expect(at(limit + 0.001).pieces).toBe(2);
    expect(at(limit + 0.001).others).toHaveLength(1);
    expect(areaOf(at(60).outline)).toBeCloseTo(144 * Math.PI, 8);
  });
  it('straight sides twice the fillet apart are just bridged, between half discs at both ends of the sides', () => {
    // Grown by 6 the two pads share the line x = 31 from y = -8.5 to 8.5, with a crack above it and one below.
    const pads = (d: number) => [0, d].map((x) => movedLoop(roundedRectangle(50, 49, 16), 0, [x, 0]));
    const { outline, pieces } = plateOutline(pads(62), 6);
    expect(pieces).toBe(1);
    expect(leastNeck(outline)?.width).toBeCloseTo(17 - 12, 9);
    const bridge = 17 * 12 - Math.PI * 36;
    expect(areaOf(outline)).toBeCloseTo(2 * (50 * 49 - (4 - Math.PI) * 256) + bridge, 6);
    expect(plateOutline(pads(62.001), 6).pieces).toBe(2);
  });
  it('a cross of two bars: four fillets of (1 - pi / 4) R^2', () => {
    const bars = [roundedRectangle(80, 20, 3), roundedRectangle(20, 60, 3)];
    const sharp = plateOutline(bars, 0).outline;
    const filleted = plateOutline(bars, 8).outline;
    const corners = 8 * (1 - Math.PI / 4) * 9;
    expect(areaOf(sharp)).toBeCloseTo(80 * 20 + 20 * 60 - 400 - corners, 9);
    expect(areaOf(filleted) - areaOf(sharp)).toBeCloseTo(4 * (1 - Math.PI / 4) * 64, 8);
  });
  it('a pad alone comes back as it was, piece for piece, sharp corners and clockwise ones too', () => {
    for (const pad of [roundedRectangle(40, 30, 8), roundedRectangle(40, 30, 0), obround(50, 20)]) {
      for (const given of [pad, reversedLoop(pad)]) {
        const { outline } = plateOutline([given], 9);
        expect(outline).toHaveLength(pad.length);
        expect(areaOf(outline)).toBeCloseTo(areaOf(pad), 8);
      }
    }
  });
  it('a closed ring of pads is filled in its middle, an open one is not', () => {
    const disc = (i: number): Loop =>
      circleLoop([40 * Math.cos((i * Math.PI) / 6), 40 * Math.sin((i * Math.PI) / 6)], 12);
    const ring = Array.from({ length: 12 }, (_, i) => disc(i));
    const closed = plateOutline(ring, 5).outline;
    expect(isInside(closed, [0, 0])).toBe(true);
    expect(areaOf(closed)).toBeGreaterThan(Math.PI * 45 ** 2);
    const open = plateOutline(ring.slice(0, 10), 5).outline;
    expect(isInside(open, [0, 0])).toBe(false);
    const island = plateOutline([...ring, circleLoop([0, 0], 3)], 5);
    expect(island.pieces).toBe(1);
  });
  it('a pocket that moving back in opens to the outside is not filled: a fork with a pinched mouth', () => {
    const fork = [
      roundedRectangle(100, 20, 0),
      ...[-40, 40].map((x): Loop => movedLoop(roundedRectangle(20, 60, 0), 0, [x, 40])),
      ...[-25, 25].map((x) => circleLoop([x, 62], 12)),
    ];
    // The mouth is 26 wide, so growing by more than 13 encloses the pocket for a while. Moving back by R bridges
    // the mouth only where the fillets above and below it clear each other: sqrt((12 + R)^2 - 25^2) > R.
    const limit = (25 ** 2 - 12 ** 2) / 24;
    for (const fillet of [5, 12.9, 13.1, 16, limit - 0.01]) {
      expect(isInside(plateOutline(fork, fillet).outline, [0, 62]), String(fillet)).toBe(false);
    }
    expect(isInside(plateOutline(fork, limit + 0.01).outline, [0, 62])).toBe(true);
  });
  it('refuses no pads at all', () => {
    expect(() => plateOutline([], 5)).toThrow(/no pads/);
  });
});

describe('60 random flange-like sets of pads, half of them in whole millimetres', () => {
  const sets = Array.from({ length: 60 }, (_, seed) => {
    const random = randomFrom(4000 + seed);
    const whole = seed % 2 === 0;
    const pads = trialPads(random, whole);
    const fillet = whole ? random.whole(0, 14) : random.between(0, 14);
    return { seed, pads, fillet, drawn: plateOutline(pads, fillet) };
  });
  it('area and number of pieces equal those of fine polygons grown and shrunk by Clipper2, within the chords error', async () => {
    const kernel = await polygonKernel();
    let apart = 0;
    for (const { seed, pads, fillet, drawn } of sets) {
      const grown = sectionGrown(sectionOf(kernel, pads), fillet);
      const closed = fillet > 0 ? sectionGrown(grown, -fillet) : grown;
      const filled = new kernel.CrossSection(
        closed.toPolygons().filter((p) => polygonArea(p) > 0),
        'NonZero',
      );
      const all = [drawn.outline, ...drawn.others];
      const area = all.reduce((sum, loop) => sum + areaOf(loop), 0);
      expect(Math.abs(area - filled.area()), `set ${String(seed)}`).toBeLessThan(areaDoubt(pads));
      expect(drawn.pieces, `set ${String(seed)}`).toBe(filled.decompose().length);
      if (drawn.pieces > 1) apart++;
    }
    expect(apart).toBeGreaterThan(0);
    expect(apart).toBeLessThan(20);
  });
  it('are closed to the last digit, nowhere cross themselves and have no crumbs', () => {
    for (const { drawn } of sets) {
      for (const loop of [drawn.outline, ...drawn.others]) {
        expect(gapOf(loop)).toBe(0);
        expect(selfCrossings(loop)).toEqual([]);
        expect(Math.min(...loop.map(lengthOf))).toBeGreaterThan(1e-4);
        for (const piece of loop) {
          if (piece.kind === 'line') continue;
          for (const end of [piece.from, piece.to]) {
            const off = Math.hypot(end[0] - piece.centre[0], end[1] - piece.centre[1]) - piece.radius;
            expect(Math.abs(off)).toBeLessThan(2e-6);
          }
        }
      }
    }
  });
  it('have no concave corner, and no concave arc but of the fillet', () => {
    for (const { fillet, drawn } of sets) {
      if (fillet === 0) continue;
      drawn.outline.forEach((piece, i) => {
        if (piece.kind === 'arc' && piece.sweep < 0) expect(piece.radius).toBeCloseTo(fillet, 6);
        const turn = turnAtJoint(piece, drawn.outline[(i + 1) % drawn.outline.length] ?? piece);
        expect(turn).toBeGreaterThan(-1e-4);
      });
    }
  });
  it('hold every point of every pad', () => {
    for (const { pads, drawn } of sets) {
      const all = [drawn.outline, ...drawn.others];
      for (const piece of pads.flat()) {
        const point = pointAt(piece, 0.37);
        const held = all.some((loop) => isInside(loop, point) || distanceTo(loop, point).distance < 2e-6);
        expect(held).toBe(true);
      }
      const pieces = all.map((loop) => boundsOf(loop).right);
      const right = Math.max(...pads.map((pad) => boundsOf(pad).right));
      expect(Math.max(...pieces)).toBeCloseTo(right, 5);
    }
  });
});
