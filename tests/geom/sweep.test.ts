import { describe, expect, it } from 'vitest';
import { randomFrom } from '../../src/base/random.js';
import type { Vector } from '../../src/base/vectors.js';
import { APART_BOUND, gapBetween, leaves } from '../../src/geom/apart.js';
import { bodyOf, gapToHalfSpace, moved, plateBody, pointBody, swept } from '../../src/geom/bodies.js';
import { centreLineOf } from '../../src/geom/centre-line.js';
import { packCentreLine } from '../../src/geom/packed-line.js';
import { boundOf, gapOfSweep, type Movable, type Shape } from '../../src/geom/sweep.js';
import { march, toBody, type Body as PlainBody, type V } from '../support/plain-march.js';

/*
 * Gaps are checked against points: the surface of one solid in points a few mm apart, each asked for its
 * distance to the other by the plain formulas of the judge of routes, which share nothing with the walk.
 */
type Round = { kind: 'cylinder' | 'capsule'; from: Vector; to: Vector; diameter: number };
type Block = { kind: 'box'; from: Vector; to: Vector };

const plainOf = (solid: Round | Block): PlainBody =>
  (solid.kind === 'box'
    ? { box: { from: solid.from, to: solid.to } }
    : {
        [solid.kind]: { from: solid.from, to: solid.to, diameter: solid.diameter },
      }) as unknown as PlainBody;

const random = randomFrom(20_251);
const between = (low: number, high: number): number => low + (high - low) * random.next();
const place = (r: number): Vector => [between(-r, r), between(-r, r), between(-r, r)];

function someBox(r: number): Block {
  const at = place(r);
  return {
    kind: 'box',
    from: at,
    to: [at[0] + between(5, 90), at[1] + between(5, 90), at[2] + between(5, 90)],
  };
}
function someRod(r: number): Round {
  const at = place(r);
  const way = place(1);
  const kind = random.next() < 0.5 ? 'cylinder' : 'capsule';
  const long = between(10, 150) / Math.hypot(...way);
  const to: Vector = [at[0] + long * way[0], at[1] + long * way[1], at[2] + long * way[2]];
  return { kind, from: at, to, diameter: between(4, 80) };
}

/** Points on a box, `step` apart: the nearest of them lies within step / sqrt 2 of any point of its surface. */
function pointsOnBox({ from, to }: Block, step: number): Vector[] {
  const points: Vector[] = [];
  const n = [0, 1, 2].map((k) => Math.ceil(((to[k] as number) - (from[k] as number)) / step));
  const at = (k: number, i: number): number =>
    (from[k] as number) + (((to[k] as number) - (from[k] as number)) * i) / (n[k] as number);
  for (let i = 0; i <= (n[0] as number); i++)
    for (let j = 0; j <= (n[1] as number); j++)
      for (let k = 0; k <= (n[2] as number); k++)
        if (i % (n[0] as number) === 0 || j % (n[1] as number) === 0 || k % (n[2] as number) === 0)
          points.push([at(0, i), at(1, j), at(2, k)]);
  return points;
}

describe('the gap between two bodies', () => {
  it('of a point is the plain distance to 600 boxes, cylinders and capsules', () => {
    for (let n = 0; n < 600; n++) {
      const solid = n % 2 === 0 ? someBox(50) : someRod(50);
      const at = place(200);
      const truth = toBody(plainOf(solid), at as unknown as V);
      if (truth <= 0.01) continue;
      const gap = gapBetween(pointBody(...at), bodyOf(solid));
      expect(gap).toBeLessThanOrEqual(truth + 1e-6);
      expect(gap).toBeGreaterThan(truth - APART_BOUND - 1e-6);
    }
  });

  it('of a box and a rod is the least over points of the box', () => {
    let apart = 0;
    for (let n = 0; n < 60; n++) {
      const [box, rod] = [someBox(120), someRod(120)];
      const step = 4;
      const points = pointsOnBox(box, step);
      const truth = Math.min(...points.map((p) => toBody(plainOf(rod), p as unknown as V)));
      const gap = gapBetween(bodyOf(box), bodyOf(rod));
      if (truth <= 0) {
        expect(gap).toBeLessThanOrEqual(0);
        continue;
      }
      if (gap > 0) apart++;
      // Points are never nearer than the surface, and at most step / sqrt 2 further.
      expect(gap).toBeLessThanOrEqual(truth + 1e-6);
      expect(gap).toBeGreaterThan(Math.max(-step, truth - step / Math.SQRT2 - APART_BOUND));
    }
    expect(apart).toBeGreaterThan(25);
  });

  it('is exact where faces stand flush, also deep inside: the least way out along a face', () => {
    const a = bodyOf({ kind: 'box', from: [0, 0, 0], to: [10, 20, 30] });
    const b = bodyOf({ kind: 'box', from: [8, 5, 5], to: [40, 40, 40] });
    expect(gapBetween(a, b)).toBeCloseTo(-2, 9);
    expect(gapBetween(a, moved(b, [2, 0, 0]))).toBeCloseTo(0, 9);
    expect(gapBetween(a, moved(b, [2.5, 0, 0]))).toBeCloseTo(0.5, 6);
    const rod = bodyOf({ kind: 'cylinder', from: [5, 10, 36], to: [5, 10, 90], diameter: 12 });
    expect(gapBetween(a, rod)).toBeCloseTo(6, 6);
    expect(gapToHalfSpace(rod, { normal: [0, 0, 1], offset: 34.5 })).toBeCloseTo(1.5, 9);
    expect(gapToHalfSpace(rod, { normal: [1, 0, 0], offset: 3 })).toBeCloseTo(-4, 9);
  });

  it('of a plate is that of the hull of its corners', () => {
    const corners: Vector[] = [
      [0, 0, 0],
      [100, 0, 0],
      [100, 40, 0],
      [50, 5, 0],
      [0, 40, 0],
    ];
    const plate = plateBody(corners, [0, 0, 1], 10, 0.02);
    // The notch at (50, 5) is bridged: the hull reaches up to 40 there.
    expect(gapBetween(plate, pointBody(50, 43, 5))).toBeCloseTo(3 - 0.02, 2);
    expect(gapBetween(plate, pointBody(50, 20, 17))).toBeCloseTo(7 - 0.02, 2);
  });

  it('a body swept takes in every place on its way, and no more: 2400 bodies and points', () => {
    for (let n = 0; n < 2400; n++) {
      const solid = n % 4 === 0 ? someBox(60) : someRod(60);
      const travel = place(60);
      const at = place(120);
      // The distance to a convex body is a convex function of the way: thirds find its least.
      const from = (t: number): number => {
        const back = travel.map((x, k) => (at[k] as number) - x * t) as unknown as V;
        return toBody(plainOf(solid), back);
      };
      let [low, high] = [0, 1];
      while (high - low > 1e-7) {
        const third = (high - low) / 3;
        if (from(low + third) < from(high - third)) high -= third;
        else low += third;
      }
      const truth = from((low + high) / 2);
      const gap = gapBetween(pointBody(...at), swept(bodyOf(solid), travel));
      expect(gap, `${n}`).toBeLessThanOrEqual(Math.max(0, truth) + 1e-4);
      if (truth > 0.01) expect(gap, `${n}`).toBeGreaterThan(truth - APART_BOUND - 1e-4);
    }
  });

  it('knows sliding and leaving from running into', () => {
    const block = bodyOf({ kind: 'box', from: [0, 0, 0], to: [100, 100, 10] });
    const on = bodyOf({ kind: 'box', from: [10, 10, 10], to: [40, 40, 30] });
    expect(leaves(on, block, [0, 0, 1], 0.5)).toBe(true);
    expect(leaves(on, block, [1, 0, 0], 0.5)).toBe(true);
    expect(leaves(on, block, [0, 0, -1], 0.5)).toBe(false);
    // 2 mm inside it: it leaves only for a slack of as much.
    expect(leaves(moved(on, [0, 0, -2]), block, [0, 0, 1], 0.5)).toBe(false);
    expect(leaves(moved(on, [0, 0, -2]), block, [0, 0, 1], 2)).toBe(true);
  });
});

describe('a sweep', () => {
  const rows = [
    { straight: 60 },
    { clr: 63.6, angle: Math.PI / 2, clock: 2.2 },
    { straight: 45 },
    { clr: 84.8, angle: 1.1, clock: 1.4 },
    { straight: 120 },
  ];
  const start = {
    at: [0, 0, 10] as Vector,
    direction: [0, 0, 1] as Vector,
    clockReference: [0, 1, 0] as Vector,
  };
  const line = centreLineOf(start, rows);
  const tube: Movable = { kind: 'tube', line: packCentreLine(line), span: [0, line.length], radius: 21.2 };
  const degrees = rows.map((row) =>
    'straight' in row
      ? row
      : { ...row, angle: (row.angle * 180) / Math.PI, clock: (row.clock * 180) / Math.PI },
  );
  const stations = march([0, 0, 10], [0, 0, 1], [0, 1, 0], degrees, 1).stations.map(({ p }) => p);
  const travel: Vector = [3, -8, 40];

  /** The least gap by points every mm along the tube, and every half mm of the way. */
  const bySampling = (body: PlainBody): number => {
    let least = Infinity;
    for (const p of stations)
      for (let i = 0; i <= 82; i++) {
        const at = p.map((x, k) => x + ((travel[k] as number) * i) / 82) as unknown as V;
        least = Math.min(least, toBody(body, at) - 21.2);
      }
    return least;
  };

  it('of a tube past boxes and rods is that of its points on the way', () => {
    for (let n = 0; n < 24; n++) {
      const solid = n % 2 === 0 ? someBox(220) : someRod(220);
      const truth = bySampling(plainOf(solid));
      const still: Shape = { kind: 'body', body: bodyOf(solid) };
      const gap = gapOfSweep(tube, travel, still, 1000);
      if (truth < -18) expect(gap).toBeLessThan(-17);
      else {
        expect(gap).toBeLessThanOrEqual(truth + 1e-6);
        expect(gap).toBeGreaterThan(truth - boundOf(tube, still) - 0.75);
      }
    }
  });

  it('of a tube past a body is that of the body past the tube, the other way; and past a field of that body', () => {
    for (let n = 0; n < 12; n++) {
      const solid = someBox(260);
      const box: Movable = { kind: 'body', body: bodyOf(solid) };
      const back = travel.map((x) => -x) as unknown as Vector;
      const gap = gapOfSweep(tube, travel, box, 400);
      expect(gapOfSweep(box, back, tube, 400)).toBeCloseTo(gap, 0.5);
      if (gap < -15) continue;
      const distance = (x: number, y: number, z: number): number => toBody(plainOf(solid), [x, y, z]);
      const field: Shape = { kind: 'field', distance };
      const past = gapOfSweep(tube, travel, field, 400);
      expect(past).toBeLessThanOrEqual(gap + boundOf(tube, box));
      expect(past).toBeGreaterThan(gap - boundOf(tube, field));
    }
  });

  it('of a body past a field is that past the field’s own body', () => {
    for (let n = 0; n < 8; n++) {
      const [box, rod] = [someBox(150), someRod(150)];
      const mover: Movable = { kind: 'body', body: bodyOf(rod) };
      const truth = gapOfSweep(mover, travel, { kind: 'body', body: bodyOf(box) }, 400);
      if (truth <= 0) continue;
      const distance = (x: number, y: number, z: number): number => toBody(plainOf(box), [x, y, z]);
      const field: Shape = { kind: 'field', distance };
      const gap = gapOfSweep(mover, travel, field, 400);
      expect(gap).toBeLessThanOrEqual(truth + 2 * APART_BOUND);
      expect(gap).toBeGreaterThan(truth - boundOf(mover, field));
    }
  });

  it('of a tube past a tube: drawn 40 mm toward one that crosses 100 mm ahead, 100 - 40 - 42.4 are left', () => {
    const straight = (at: Vector, direction: Vector): Movable => {
      const one = centreLineOf({ at, direction, clockReference: [0, 1, 0] }, [{ straight: 200 }]);
      return { kind: 'tube', line: packCentreLine(one), span: [0, 200], radius: 21.2 };
    };
    const mover = straight([-100, 0, 0], [1, 0, 0]);
    const still = straight([0, 20, 100], [0, -0.6, 0.8]);
    const gap = gapOfSweep(mover, [0, 0, 40], still, 400);
    // The other's near end is at (0, 20, 100): from (0, 0, 40) that is hypot(20, 60).
    const truth = Math.hypot(20, 60) - 42.4;
    expect(gap).toBeLessThanOrEqual(truth + 1e-6);
    expect(gap).toBeGreaterThan(truth - boundOf(mover, still));
    const ground: Shape = { kind: 'half space', halfSpace: { normal: [0, 0, -1], offset: -90 } };
    expect(gapOfSweep(mover, [0, 0, 40], ground, 400)).toBeCloseTo(90 - 40 - 21.2, 1);
  });
});
