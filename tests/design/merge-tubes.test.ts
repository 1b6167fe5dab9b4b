import { describe, expect, it } from 'vitest';
import { place } from '../../src/base/frames.js';
import { radians } from '../../src/base/numbers.js';
import { distance, type Point } from '../../src/base/points.js';
import { randomFrom } from '../../src/base/random.js';
import { tolerance } from '../../src/base/tolerance.js';
import { add, direction, dot3, scale, subtract, type Vector } from '../../src/base/vectors.js';
import { collectorSlots, type SlotRules } from '../../src/design/collector-slots.js';
import {
  freeInside,
  leastThat,
  neighbourWeb,
  pitchAt,
  reachOutside,
  tubeHole,
  tubeHoles,
  type RingRules,
} from '../../src/design/merge/tubes.js';
import { ellipseArc } from '../../src/geom/ellipse.js';
import { chordsOf } from '../../src/geom/chords.js';
import type { CurveLoop } from '../../src/geom/segments.js';

const ring: RingRules = {
  od: 42.4,
  count: 4,
  slotGap: 5,
  lean: radians(8),
  clocking: radians(45),
  upstream: 45,
  thickness: 6,
  gap: 0,
};

/** Points along true curves, ellipses too. */
const pointsOf = (loop: CurveLoop, count: number): Point[] =>
  loop.flatMap((piece) => {
    if (piece.kind !== 'ellipse') return chordsOf([piece], 1e-3);
    const { centre, major, minor, turn, start, sweep } = piece;
    return Array.from(
      { length: count },
      (_, k) => ellipseArc(centre, major, minor, turn, start, (sweep * k) / count).to,
    );
  });

/** Least distance of the line x, y = const, z in [0, t] from a tube's axis: a parabola in z, worked here. */
function leastFromAxis(q: Point, thickness: number, at: Vector, along: Vector): number {
  const from = (z: number): number => {
    const d = subtract([q[0], q[1], z], at);
    return Math.sqrt(Math.max(0, dot3(d, d) - dot3(d, along) ** 2));
  };
  const d = subtract([q[0], q[1], 0], at);
  const k = 1 - along[2] ** 2;
  const z = k > 0 ? -(d[2] - dot3(d, along) * along[2]) / k : 0;
  return Math.min(from(0), from(thickness), from(Math.min(thickness, Math.max(0, z))));
}

describe('ring of tubes through a plate', () => {
  it('pitch radius of four 42.4 tubes, 5 apart: 33.52 at their ends, 39.78 where they are 45 long, leaning 8 deg', () => {
    expect(pitchAt(ring, 0)).toBeCloseTo(33.5169, 4);
    // 45 mm along the tube is 45 cos 8 along the axis: 33.5169 + 45 sin 8.
    expect(pitchAt(ring, 45 * Math.cos(radians(8)))).toBeCloseTo(39.78, 2);
    // 45 mm along the collector's axis, which is how the job places the plate: 33.5169 + 45 tan 8.
    expect(pitchAt(ring, 45)).toBeCloseTo(39.841, 3);
  });

  it('length of a hole: an ellipse in a sheet, against the table of plane cuts through a 42.4 tube', () => {
    // Semi-major axes r / cos b worked apart from this program, by line and plane: 9, 15 and 22.5 deg.
    for (const [lean, semiMajor] of [
      [9, 21.4643],
      [15, 21.9479],
      [22.5, 22.9467],
    ] as const)
      expect(tubeHole({ ...ring, lean: radians(lean), thickness: 0 }, 0).length / 2).toBeCloseTo(
        semiMajor,
        4,
      );
  });

  it('a plate of 6 mm at 8 deg adds t tan a = 0.84 to the length of the ellipse', () => {
    const added = tubeHole(ring, 0).length - tubeHole({ ...ring, thickness: 0 }, 0).length;
    expect(added).toBeCloseTo(0.84325, 4);
  });

  it('bridge between two tubes at 8 deg, 5 apart: 4.58 with the plate flush with their ends', () => {
    // Centres 47.4 apart, each hole reaching 21.2 / cos 8 = 21.4083 toward the other.
    const two = { ...ring, count: 2, upstream: 6 };
    expect(neighbourWeb(two)).toBeGreaterThan(4.58 - 2 * tolerance.curveFit);
    expect(neighbourWeb(two)).toBeLessThanOrEqual(47.4 - 42.4 / Math.cos(radians(8)) + 1e-9);
    expect(47.4 - 42.4 / Math.cos(radians(8))).toBeCloseTo(4.583, 3);
  });

  it('touching square-set tubes, against the table of circles packed in a ring: outside and in the middle', () => {
    // Published table of optimal packings: enclosing 2, 2.155, 2.414, 2.701, 3 tube radii; voids by the same formula.
    for (const [count, enclosing, hollow] of [
      [2, 2, 0],
      [3, 2.154701, 0.154701],
      [4, 2.414214, 0.414214],
      [5, 2.701302, 0.701302],
      [6, 3, 1],
    ] as const) {
      const holes = tubeHoles({ ...ring, od: 2, count, slotGap: 0, lean: 0 });
      expect(reachOutside(holes)).toBeCloseTo(enclosing, 5);
      expect(freeInside(holes)).toBeCloseTo(hollow, 5);
      expect(neighbourWeb({ ...ring, od: 2, count, slotGap: 0, lean: 0 })).toBeLessThan(1e-6);
    }
    // Four of 42.4: 102.3627 over all, a circle of 17.5627 between them.
    const four = tubeHoles({ ...ring, slotGap: 0, lean: 0 });
    expect(2 * reachOutside(four)).toBeCloseTo(102.3627, 2);
    expect(2 * freeInside(four)).toBeCloseTo(17.5627, 4);
  });

  it('300 random rings of 2 to 8: the cut clears every tube by the gap all through, and nowhere by 0.01 more', () => {
    const random = randomFrom(51);
    for (let i = 0; i < 300; i++) {
      const count = random.whole(2, 8);
      const collector: SlotRules = {
        at: [random.between(-300, 300), random.between(-300, 300), random.between(-300, 300)],
        flow: direction([random.between(-1, 1), random.between(-1, 1), random.between(0.1, 1)]),
        joint: 'welded',
        halfAngle: random.chance(0.15) ? 0 : radians(random.between(0.2, 25)),
        clocking: radians(random.between(-180, 180)),
        slotGap: random.between(2, 25),
      };
      const rules: RingRules = {
        od: random.pick([25.4, 38.1, 42.4, 50.8, 60.3]),
        count,
        slotGap: collector.slotGap,
        lean: collector.halfAngle,
        clocking: collector.clocking ?? 0,
        upstream: random.between(-10, 80),
        thickness: random.between(1, 20),
        gap: random.between(0, 2),
      };
      // The tubes come from the collector's slots in space, the plate's frame from its place on the axis.
      const { frame, slots } = collectorSlots(collector, rules.od, count);
      const plate = { ...frame, origin: add(frame.origin, scale(frame.out, -rules.upstream)) };
      const index = random.whole(0, count - 1);
      const slot = slots[index];
      if (slot === undefined) throw new Error('no slot');
      const seen = (v: Vector): Vector => [dot3(v, plate.right), dot3(v, plate.up), dot3(v, plate.out)];
      const at = seen(subtract(slot.at, plate.origin));
      const along = seen(slot.direction);
      const hole = tubeHole(rules, index);
      const least = (rules.od + rules.gap) / 2;
      let [tightest, slackest] = [Infinity, 0];
      for (const q of chordsOf(hole.opening.loop, 1e-3)) {
        const found = leastFromAxis(q, rules.thickness, at, along);
        tightest = Math.min(tightest, found);
        slackest = Math.max(slackest, found);
      }
      expect(tightest, JSON.stringify(rules)).toBeGreaterThan(least - 1e-6);
      expect(slackest, JSON.stringify(rules)).toBeLessThan(least + tolerance.curveFit + 1e-6);
      expect(hole.deviation).toBeLessThanOrEqual(tolerance.curveFit);
      // And the true outline, for the solid, is met to the last digit.
      for (const q of pointsOf(hole.opening.exact ?? hole.opening.loop, 60))
        expect(Math.abs(leastFromAxis(q, rules.thickness, at, along) - least)).toBeLessThan(1e-9);
      // Where the job's own frame puts the tube's axis in the middle of the thickness, there `at` is.
      const middle = place(plate, [hole.at[0], hole.at[1], rules.thickness / 2]);
      const off = subtract(middle, slot.at);
      expect(dot3(off, off) - dot3(off, slot.direction) ** 2).toBeLessThan(1e-9);
    }
  }, 20_000);

  it('slots run counter-clockwise from the clocking, looking upstream', () => {
    const holes = tubeHoles({ ...ring, lean: 0 });
    expect(holes.map(({ slot }) => slot)).toEqual(['S1', 'S2', 'S3', 'S4']);
    const side = 33.5169 * Math.SQRT1_2;
    const corners: Point[] = [
      [side, side],
      [-side, side],
      [-side, -side],
      [side, -side],
    ];
    holes.forEach(({ at }, i) => expect(distance(at, corners[i] ?? [9, 9])).toBeLessThan(1e-4));
    expect(holes.every(({ opening }) => opening.exact === undefined)).toBe(true);
  });

  it('least value that is enough, in tenths', () => {
    expect(leastThat(3, 50, (v) => v >= 7.23)).toBe(7.3);
    expect(leastThat(3, 50, (v) => v >= 7.3)).toBe(7.3);
    expect(leastThat(3, 50, (v) => v >= 51)).toBeUndefined();
  });
});
