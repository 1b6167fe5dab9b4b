import { describe, expect, it } from 'vitest';
import { radians } from '../../src/base/numbers.js';
import { cross, distance, dot, left, minus, plus, times, type Point } from '../../src/base/points.js';
import { randomFrom } from '../../src/base/random.js';
import { lengthOf, pointAt, tangentAt } from '../../src/geom/arcs.js';
import { difference, union } from '../../src/geom/combine.js';
import { hullOfDiscs } from '../../src/geom/hulls.js';
import { leastNeck } from '../../src/geom/least-neck.js';
import { areaOf, circleLoop, distanceTo, isInside, movedLoop } from '../../src/geom/loops.js';
import { plateOutline } from '../../src/geom/outline.js';
import type { Loop } from '../../src/geom/segments.js';
import { dShape, obround, roundedRectangle } from '../../src/geom/shapes.js';
import { trialPads } from '../support/trial-pads.js';

const widthOf = (loop: Loop): number => leastNeck(loop)?.width ?? Infinity;

describe('narrowest neck, against closed forms', () => {
  it('two discs of 12, 30 apart, fillets of 10: the gap between the fillets', () => {
    const { outline } = plateOutline([circleLoop([0, 0], 12), circleLoop([30, 0], 12)], 10);
    const neck = leastNeck(outline);
    expect(neck?.width).toBeCloseTo(2 * Math.sqrt(22 ** 2 - 15 ** 2) - 20, 9);
    expect(neck?.from[0]).toBeCloseTo(15, 9);
    expect(neck?.to[0]).toBeCloseTo(15, 9);
  });
  it('a hairline: the same discs just near enough to be bridged', () => {
    const limit = 2 * Math.sqrt(22 ** 2 - 10 ** 2);
    const { outline, pieces } = plateOutline([circleLoop([0, 0], 12), circleLoop([limit - 0.01, 0], 12)], 10);
    expect(pieces).toBe(1);
    expect(widthOf(outline)).toBeLessThan(0.02);
  });
  it('a bar between two discs: its width, in any position', () => {
    const pads = [circleLoop([0, 0], 20), circleLoop([90, 0], 20), obround(90, 14)];
    const set = pads.map((pad, i) => (i === 2 ? movedLoop(pad, 0, [45, 0]) : pad));
    for (const turn of [0, 30, 101]) {
      const { outline } = plateOutline(
        set.map((pad) => movedLoop(pad, radians(turn), [3, 8])),
        8,
      );
      expect(widthOf(outline)).toBeCloseTo(14, 9);
    }
  });
  it('sharp concave corners: across a notch from both sides', () => {
    const notch = roundedRectangle(10, 40, 0);
    const plate = difference(
      [roundedRectangle(100, 40, 0)],
      union([[movedLoop(notch, 0, [0, 28])], [movedLoop(notch, 0, [0, -27])]]),
    );
    // From y = 8 down to y = -7.
    expect(widthOf(plate[0] ?? [])).toBeCloseTo(15, 9);
    const apart = difference(
      [roundedRectangle(100, 40, 0)],
      union([[movedLoop(notch, 0, [-8, 28])], [movedLoop(notch, 0, [8, -27])]]),
    );
    // From corner (-3, 8) to corner (3, -7).
    expect(widthOf(apart[0] ?? [])).toBeCloseTo(Math.hypot(6, 15), 9);
  });
  it('a hole near the rim of a disc, slit open on its far side: radius less centres less radius', () => {
    const slit = movedLoop(roundedRectangle(6, 40, 0), radians(-37), [-15, -20]);
    const away = union([[circleLoop([6, 8], 15)], [slit]]);
    const loop = difference([circleLoop([0, 0], 40)], away)[0] ?? [];
    const neck = leastNeck(loop);
    expect(neck?.width).toBeCloseTo(40 - 10 - 15, 9);
    expect(Math.abs(cross(neck?.from ?? [1, 0], [6, 8]))).toBeLessThan(1e-6);
  });
  it('a bite out of a rim makes a crescent, which tapers to its tips: none', () => {
    const bitten = difference([circleLoop([0, 0], 40)], [circleLoop([20, 0], 25)])[0] ?? [];
    expect(leastNeck(bitten)).toBeUndefined();
  });
  it('an arch about one centre: its breadth all along', () => {
    const half = roundedRectangle(200, 100, 0);
    const arch =
      difference(
        [circleLoop([0, 0], 40)],
        union([[circleLoop([0, 0], 28)], [movedLoop(half, 0, [0, -50])]]),
      )[0] ?? [];
    expect(widthOf(arch)).toBeCloseTo(12, 9);
  });
  it('straight sides in parallel make one; a disc, a D with a round, a belt that tapers have none', () => {
    expect(widthOf(roundedRectangle(60, 25, 6))).toBeCloseTo(25, 9);
    expect(widthOf(obround(60, 25))).toBeCloseTo(25, 9);
    expect(leastNeck(circleLoop([0, 0], 20))).toBeUndefined();
    expect(leastNeck(dShape(40, 18, 'bottom', 4))).toBeUndefined();
    const taper = hullOfDiscs([
      { at: [0, 0], radius: 20 },
      { at: [50, 0], radius: 6 },
    ]);
    expect(leastNeck(taper)).toBeUndefined();
  });
  it('two edges that face each other across a gap in the metal make none', () => {
    const fork =
      union([
        [roundedRectangle(100, 30, 0)],
        [movedLoop(roundedRectangle(30, 80, 0), 0, [-35, 25])],
        [movedLoop(roundedRectangle(30, 80, 0), 0, [35, 25])],
      ])[0] ?? [];
    expect(areaOf(fork)).toBeGreaterThan(0);
    // Between the arms are 40 mm of air, through both arms 100; each arm is 30.
    expect(widthOf(fork)).toBeCloseTo(30, 9);
  });
});

/** Points all along an outline, and the width across wherever a pair of them is the least among its neighbours. */
function lookedNeck(outline: Loop, step: number): number {
  const at: Point[] = [];
  const inward: Point[] = [];
  for (const piece of outline) {
    const count = Math.ceil(lengthOf(piece) / step);
    for (let i = 0; i < count; i++) {
      at.push(pointAt(piece, (i + 0.5) / count));
      inward.push(left(tangentAt(piece, (i + 0.5) / count)));
    }
  }
  const n = at.length;
  const gap = (i: number, j: number): number =>
    distance(at[(i + n) % n] ?? [0, 0], at[(j + n) % n] ?? [0, 0]);
  let least = Infinity;
  for (let i = 0; i < n; i++) {
    for (let j = i + 4; j < n; j++) {
      const here = gap(i, j);
      if (here >= least) continue;
      const p = at[i] as Point;
      const q = at[j] as Point;
      const across = times(minus(q, p), 1 / here);
      if (dot(inward[i] ?? p, across) < 0.98 || dot(inward[j] ?? q, across) > -0.98) continue;
      let low = true;
      // Neighbours far enough to tell a slope from rounding: about 2 mm of edge to both sides.
      for (let a = -4; a <= 4 && low; a++)
        for (let b = -4; b <= 4 && low; b++) if (gap(i + a, j + b) < here - 1e-3) low = false;
      if (low && isInside(outline, [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2])) least = here;
    }
  }
  return least;
}

describe('narrowest neck of random flanges, against looking across between all pairs of points', () => {
  it('30 flanges: none narrower is seen, and the one found is least among its neighbours', () => {
    const random = randomFrom(91);
    let same = 0;
    for (let i = 0; i < 30; i++) {
      const { outline } = plateOutline(trialPads(random, i % 2 === 0), random.between(2, 14));
      const found = leastNeck(outline);
      const seen = lookedNeck(outline, 0.5);
      if (!found) {
        expect(seen, `flange ${String(i)}`).toBe(Infinity);
        continue;
      }
      // The look sees no neck shallower than a thousandth, so it may see a wider one, or none.
      expect(found.width, `flange ${String(i)}`).toBeLessThan(seen + 0.01);
      if (found.width > seen - 0.1) same++;
      const { from, to, width } = found;
      expect(distance(from, to)).toBeCloseTo(width, 9);
      const along = times(left(minus(to, from)), 1 / width);
      for (const a of [-0.005, 0, 0.005]) {
        for (const b of [-0.005, 0, 0.005]) {
          const p = distanceTo(outline, plus(from, times(along, a))).nearest;
          const q = distanceTo(outline, plus(to, times(along, b))).nearest;
          expect(distance(p, q), `flange ${String(i)}`).toBeGreaterThan(width - 1e-8);
        }
      }
    }
    expect(same).toBeGreaterThan(20);
  });
});
