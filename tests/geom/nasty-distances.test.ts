import { describe, expect, it } from 'vitest';
import { radians } from '../../src/base/numbers.js';
import { centreLineOf, type CentreLineRow } from '../../src/geom/centre-line.js';
import { leastSpareBetween, leastSpareWithin } from '../../src/geom/line-to-line.js';
import { leastSpare } from '../../src/geom/line-to-solids.js';
import { packCentreLine } from '../../src/geom/packed-line.js';
import { squaredToPieces } from '../../src/geom/point-to-line.js';
import { packSolids, type Solid } from '../../src/geom/solids.js';
import { far, least, march, toBody, type Body, type Row, type V } from '../support/plain-march.js';

/*
 * Distances where formulas like to fail: things that touch, share an axis or a centre, straights of no length,
 * bends of 150 degrees. Against figures by hand, and against points every 0.1 mm of a march done apart.
 */
const FINE = 0.1;
const FLOOR = 0.05;
const radius = 21.2;
const all = { floor: FLOOR, stop: -Infinity, cap: 1000 };
const asked = { anywhere: 0, nearEnds: 0 };

const tube = (at: V, flow: V, reference: V, rows: readonly Row[]) => ({
  line: packCentreLine(
    centreLineOf(
      { at, direction: flow, clockReference: reference },
      rows.map((row): CentreLineRow =>
        'straight' in row ? row : { clr: row.clr, angle: radians(row.angle), clock: radians(row.clock) },
      ),
    ),
  ),
  stations: march(at, flow, reference, rows, FINE).stations,
});
type Tube = ReturnType<typeof tube>;
const bend = (angle: number, clock: number, clr = 63.6): Row => ({ clr, angle, clock });
const straight = (length: number): Row => ({ straight: length });
const up: V = [0, 1, 0];
const out: V = [0, 0, 1];

/** A hairpin with no straight in it: two bends of 150 degrees that lie on each other's heels. */
const hairpin = tube([0, 0, 0], out, up, [
  straight(0),
  bend(150, 0),
  straight(0),
  bend(150, 180, 42.4),
  straight(0),
]);
const quarter = tube([0, 0, 0], out, up, [straight(100), bend(90, 0), straight(100)]);

const spareTo = (solid: Solid, { line }: Tube, clear = 0): number =>
  leastSpare(line, packSolids([{ solid, clear }]), [0, line.length], radius, all);

describe('a tube and a solid', () => {
  it('tangent to it: 0 left, by the drawing', () => {
    // The quarter's last straight runs along up at z = 163.6; its bend's outermost line at 163.6 + 21.2.
    const plane: Solid = { kind: 'plane', at: [0, 0, 163.6 + radius], normal: [0, 0, -1] };
    const box: Solid = { kind: 'box', from: [-5, 90, 163.6 + radius], to: [5, 110, 300] };
    const round: Solid = {
      kind: 'cylinder',
      from: [-90, 140, 163.6 + radius + 15],
      to: [90, 140, 163.6 + radius + 15],
      diameter: 30,
    };
    for (const solid of [plane, box, round, { ...round, kind: 'capsule' } as Solid]) {
      const found = spareTo(solid, quarter);
      expect(found).toBeGreaterThanOrEqual(-1e-9);
      expect(found).toBeLessThan(FLOOR / 2);
    }
    // Inside the elbow: a peg on the bend's axis (y 63.6, z 100) is touched all along the bend at once.
    const peg: Solid = {
      kind: 'cylinder',
      from: [-50, 63.6, 100],
      to: [50, 63.6, 100],
      diameter: 2 * (63.6 - radius),
    };
    expect(Math.abs(spareTo(peg, quarter))).toBeLessThan(1e-9);
  });

  it('on one axis with it: as deep as its nearest face, and off its flat or round end', () => {
    const rod = (kind: 'cylinder' | 'capsule', from: number, to: number): Solid => ({
      kind,
      from: [0, 0, from],
      to: [0, 0, to],
      diameter: 30,
    });
    // Along the middle of the rod the nearest face is its side, 15 away.
    expect(spareTo(rod('cylinder', -200, 60), quarter)).toBeCloseTo(-15 - radius, 6);
    expect(spareTo(rod('capsule', -200, 60), quarter)).toBeCloseTo(-15 - radius, 6);
    // 40 mm short of the tube's end: flat 40, round 40 - 15.
    expect(spareTo(rod('cylinder', -200, -40), quarter)).toBeCloseTo(40 - radius, 6);
    expect(spareTo(rod('capsule', -200, -40), quarter)).toBeCloseTo(25 - radius, 6);
  });

  const bodies: Record<string, [Body, Solid]> = {
    'a box that a hairpin straddles': [
      { box: { from: [-30, 40, 10], to: [30, 52, 30] } },
      { kind: 'box', from: [-30, 40, 10], to: [30, 52, 30] },
    ],
    'a rod through its eye': [
      { cylinder: { from: [-80, 63.6, 0], to: [80, 63.6, 0], diameter: 10 } },
      { kind: 'cylinder', from: [-80, 63.6, 0], to: [80, 63.6, 0], diameter: 10 },
    ],
    'a short disc edge on': [
      { cylinder: { from: [0, 130, 60], to: [0, 130, 62], diameter: 80 } },
      { kind: 'cylinder', from: [0, 130, 60], to: [0, 130, 62], diameter: 80 },
    ],
    'a ball, nearly': [
      { capsule: { from: [20, 150, 70], to: [20, 150, 70.001], diameter: 40 } },
      { kind: 'capsule', from: [20, 150, 70], to: [20, 150, 70.001], diameter: 40 },
    ],
  };
  it.each(Object.entries(bodies))(
    'hairpin of 150 degree bends without a straight, and %s',
    (_, [body, solid]) => {
      const sampled = least(hairpin.stations, ({ p }) => toBody(body, p)) - radius;
      const found = spareTo(solid, hairpin);
      expect(found).toBeLessThan(sampled + FLOOR / 2 + 1e-9);
      expect(found).toBeGreaterThan(sampled - FINE / 2 - 1e-9);
    },
  );
});

describe('two tubes', () => {
  const between = (a: Tube, b: Tube): number => {
    const [one, two] = [
      leastSpareBetween(a.line, b.line, asked, all),
      leastSpareBetween(b.line, a.line, asked, all),
    ];
    // Whichever is marched, the answer is the same to within the floor.
    expect(Math.abs(one - two)).toBeLessThan(FLOOR / 2 + 1e-9);
    return Math.min(one, two);
  };

  it('bends round one centre keep their distance all the way, and so do bends on one axis', () => {
    // Starts 20 mm further from the centre (0, 63.6, 100), so CLR 83.6; last straights are not looked at.
    const outer = tube([0, -20, 0], out, up, [straight(100), bend(90, 0, 83.6), straight(100)]);
    expect(between(quarter, outer)).toBeCloseTo(20, 9);
    const beside = tube([70, 0, 0], out, up, [straight(100), bend(90, 0), straight(100)]);
    expect(between(quarter, beside)).toBeCloseTo(70, 9);
  });

  it('on one axis, end to end and head on', () => {
    // The other's first straight comes down the same axis from below and stops 30 mm short.
    const below = tube([0, 0, -30], [0, 0, -1], up, [straight(80), bend(150, 0), straight(0)]);
    expect(between(quarter, below)).toBeCloseTo(30, 9);
  });

  it('crossing: their axes meet and nothing is between them', () => {
    const across = tube([-50, 0, 50], [1, 0, 0], up, [straight(100), bend(30, 180), straight(10)]);
    const found = between(quarter, across);
    expect(found).toBeGreaterThanOrEqual(0);
    expect(found).toBeLessThan(FLOOR);
  });

  it('hairpins of 150 degree bends in each other, against dense points', () => {
    for (const [dx, dy, dz] of [
      [0, 30, 5],
      [15, 63.6, 20],
      [3, -10, 90],
    ] as const) {
      const other = tube([dx, dy, dz], [0.6, 0, 0.8], up, [
        straight(0),
        bend(150, 200),
        straight(0),
        bend(150, 75),
        straight(12),
      ]);
      const ends = 3;
      const some = (t: Tube) => t.stations.filter((_, k) => k % 5 === 0);
      let sampled = Infinity;
      for (const p of some(hairpin))
        for (const q of some(other))
          if (!(p.row > ends && q.row > ends)) sampled = Math.min(sampled, far(p.p, q.p));
      const found = between(hairpin, other);
      expect(found).toBeLessThan(sampled + FLOOR / 2 + 1e-9);
      // Points 0.5 mm apart on both may miss a crossing by half of that, each.
      expect(found).toBeGreaterThan(sampled - 0.36);
    }
  });
});

describe('one tube', () => {
  it("a point on a bend's axis is as far from all of the bend, the end of the wedge included", () => {
    for (const high of [0, 40]) {
      const found = Math.sqrt(squaredToPieces(quarter.line.data, 0, 5, high, 63.6, 100));
      expect(found).toBeCloseTo(Math.hypot(63.6, high), 9);
    }
  });

  it('a loop of three bends of 120 degrees closes on itself: its ends meet', () => {
    const loop = tube([0, 0, 0], out, up, [
      straight(0),
      bend(120, 0),
      straight(0),
      bend(120, 0),
      straight(0),
      bend(119, 0),
      straight(0),
    ]);
    // A circle but for 1 degree of 63.6: the ends are a chord of that apart.
    const chord = 2 * 63.6 * Math.sin(radians(0.5));
    expect(Math.abs(leastSpareWithin(loop.line, Math.PI * 63.6, 0, all) - chord)).toBeLessThan(FLOOR);
  });
});
