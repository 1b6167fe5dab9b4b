import { describe, expect, it } from 'vitest';
import { radians } from '../../src/base/numbers.js';
import { randomFrom, type Random } from '../../src/base/random.js';
import { direction, type Vector } from '../../src/base/vectors.js';
import { centreLineOf, type CentreLine, type CentreLineRow } from '../../src/geom/centre-line.js';
import { portClockingZero } from '../../src/geom/clocking-zero.js';
import { intersectionPointsOf } from '../../src/geom/intersection-points.js';
import { lengthThrough } from '../../src/geom/length-through.js';
import { leastSpareBetween, leastSpareWithin } from '../../src/geom/line-to-line.js';
import { leastSpare } from '../../src/geom/line-to-solids.js';
import { emptyLine, packCentreLine, packThrough, pointOn } from '../../src/geom/packed-line.js';
import { squaredToArcEnds, squaredToPieces } from '../../src/geom/point-to-line.js';
import { leastDistanceTo, packSolids, type Solid } from '../../src/geom/solids.js';
import { far, march, toBody, type Body, type Row, type Station, type V } from '../support/plain-march.js';

const FINE = 0.1;

/** A random tube, as a centre line of ours and as points of the plain march. */
function randomTube(
  random: Random,
  bends: number,
  leastAngle = 5,
): { line: CentreLine; stations: readonly Station[] } {
  const spread = (): number => random.between(-150, 150);
  const at: Vector = [spread(), spread(), spread()];
  const flow = direction([spread(), spread(), 160]);
  const rows: Row[] = [{ straight: random.between(10, 120) }];
  for (let i = 0; i < bends; i++)
    rows.push(
      {
        clr: random.pick([42.4, 63.6, 84.8]),
        angle: random.between(leastAngle, 150),
        clock: random.between(0, 360),
      },
      { straight: random.chance(0.2) ? 0 : random.between(1, 120) },
    );
  const start = { at, direction: flow, clockReference: portClockingZero(flow) };
  const inRadians = rows.map((row): CentreLineRow =>
    'straight' in row ? row : { clr: row.clr, angle: radians(row.angle), clock: radians(row.clock) },
  );
  return {
    line: centreLineOf(start, inRadians),
    stations: march(at, flow, start.clockReference, rows, FINE).stations,
  };
}

const bodies: Body[] = [
  { box: { from: [-80, -60, -40], to: [60, 20, 90] } },
  { cylinder: { from: [-200, -50, 40], to: [150, 90, 60], diameter: 25 } },
  { capsule: { from: [100, -150, -100], to: [130, 200, 150], diameter: 50 } },
  { plane: { at: [0, -160, 0], normal: [0.6, 0.8, 0] } },
];
const solidOf = ({ box, cylinder, capsule, plane }: Body): Solid => {
  if (box) return { kind: 'box', ...box };
  if (cylinder) return { kind: 'cylinder', ...cylinder };
  if (capsule) return { kind: 'capsule', ...capsule };
  if (plane) return { kind: 'plane', ...plane };
  throw new Error('no body');
};

describe('a packed centre line', () => {
  it('200 random tubes: points every 0.1 mm on the rows marched apart, and back through their XYZ points', () => {
    const random = randomFrom(31);
    const here = new Float64Array(3);
    for (let i = 0; i < 200; i++) {
      const bends = random.whole(1, 5);
      const { line, stations } = randomTube(random, bends);
      const { points, clrs } = intersectionPointsOf(line);
      const through = emptyLine(bends);
      packThrough(Float64Array.from(points.flat()), clrs, bends, through);
      expect(through.length).toBeCloseTo(line.length, 8);
      expect(lengthThrough(Float64Array.from(points.flat()), clrs, bends)).toBeCloseTo(line.length, 8);
      for (const packed of [packCentreLine(line), through])
        for (let k = 0; k < stations.length; k += 97) {
          const { s, row, p } = stations[k] as Station;
          pointOn(packed.data, row, s, here);
          expect(far([...here] as unknown as V, p)).toBeLessThan(1e-7);
        }
    }
  });
});

describe('distance of a point', () => {
  it('to 100 random tubes, against points every 0.1 mm along them', () => {
    const random = randomFrom(32);
    for (let i = 0; i < 100; i++) {
      const { line, stations } = randomTube(random, random.whole(1, 4));
      const packed = packCentreLine(line);
      const p: V = [random.between(-300, 300), random.between(-300, 300), random.between(-100, 400)];
      const found = Math.sqrt(squaredToPieces(packed.data, 0, packed.pieces, ...p));
      const sampled = Math.min(...stations.map((here) => far(here.p, p)));
      expect(found).toBeLessThan(sampled + 1e-9);
      // Half a step along a line at distance d is missed by less than step2 / 8 d; on an arc 1 / CLR adds to 1 / d.
      expect(sampled - found).toBeLessThan((FINE ** 2 / 8) * (1 / sampled + 1 / 42.4) + 1e-9);
      // One bend by itself, its ends included.
      const own = stations.filter(({ row }) => row === 1);
      const alone = Math.sqrt(
        Math.min(squaredToPieces(packed.data, 1, 2, ...p), squaredToArcEnds(packed.data, 1, ...p)),
      );
      expect(Math.abs(alone - Math.min(...own.map((here) => far(here.p, p))))).toBeLessThan(1e-3);
    }
  });

  it('to box, cylinder, capsule, plane and any field, inside and out, against the plain formulas', () => {
    const random = randomFrom(33);
    const field: Solid = {
      kind: 'field',
      distance: (x, y, z) => Math.hypot(x, y, z) - 70,
      centre: [0, 0, 0],
      radius: 70,
      doubt: 0,
    };
    for (let i = 0; i < 2000; i++) {
      const p: V = [random.between(-250, 250), random.between(-250, 250), random.between(-250, 250)];
      const each = bodies.map((body) => toBody(body, p) - 5);
      const all = packSolids([
        ...bodies.map((body) => ({ solid: solidOf(body), clear: 5 })),
        { solid: field, clear: 8 },
      ]);
      const sphere = Math.hypot(...p) - 78;
      const least = Math.min(...each, sphere);
      expect(leastDistanceTo(all, ...p)).toBeCloseTo(least, 9);
      expect(all.nearest).toBe([...each, sphere].indexOf(least));
      each.forEach((value, k) => {
        const one = packSolids([{ solid: solidOf(bodies[k] as Body), clear: 5 }]);
        expect(leastDistanceTo(one, ...p)).toBeCloseTo(value, 9);
      });
    }
  });
});

describe('least spare of a march', () => {
  const radius = 21.2;
  const march = (floor: number) => ({ floor, stop: -Infinity, cap: 1000 });

  it('of 60 random tubes to solids: never below the truth, at most half the floor above it', () => {
    const random = randomFrom(34);
    const set = packSolids(bodies.map((body) => ({ solid: solidOf(body), clear: 4 })));
    for (let i = 0; i < 60; i++) {
      const { line, stations } = randomTube(random, random.whole(1, 4));
      const packed = packCentreLine(line);
      const [from, to] = [line.length * 0.1, line.length * 0.9];
      const sampled = Math.min(
        ...stations
          .filter(({ s }) => s >= from && s <= to)
          .map(({ p }) => Math.min(...bodies.map((body) => toBody(body, p))) - 4 - radius),
      );
      for (const floor of [0.2, 2]) {
        const found = leastSpare(packed, set, [from, to], radius, march(floor));
        // The points may stop one step short of the span's ends.
        expect(found).toBeGreaterThan(sampled - FINE - 1e-9);
        expect(found).toBeLessThan(sampled + floor / 2 + 1e-9);
      }
      // As a yes or no at a threshold, with half the floor of doubt.
      for (const threshold of [sampled - 1.5, sampled + 0.5]) {
        const asked = leastSpare(packed, set, [from, to], radius, {
          floor: 1,
          stop: threshold,
          cap: threshold,
        });
        expect(asked >= threshold).toBe(threshold < sampled);
      }
    }
  });

  it('between 20 pairs of random tubes that end side by side, by the rule for near ends, against dense points', () => {
    const random = randomFrom(35);
    const asked = { anywhere: 48.4, nearEnds: 45 };
    for (let i = 0; i < 20; i++) {
      const [one, two] = [randomTube(random, random.whole(1, 3)), randomTube(random, random.whole(1, 3))];
      const [a, b] = [packCentreLine(one.line), packCentreLine(two.line)];
      let sampled = Infinity;
      for (const p of one.stations.filter((_, k) => k % 5 === 0))
        for (const q of two.stations.filter((_, k) => k % 5 === 0)) {
          const [pEnd, qEnd] = [p.row - (a.pieces - 2), q.row - (b.pieces - 2)];
          if (pEnd === 1 && qEnd === 1) continue;
          const apart = pEnd >= 0 && qEnd >= 0 ? asked.nearEnds : asked.anywhere;
          sampled = Math.min(sampled, far(p.p, q.p) - apart);
        }
      for (const [x, y] of [
        [a, b],
        [b, a],
      ] as const) {
        const found = leastSpareBetween(x, y, asked, march(0.2));
        // Points 0.5 mm apart on both tubes miss a crossing by less than 0.3 mm.
        expect(found).toBeLessThan(sampled + 0.1 + 1e-9);
        expect(found).toBeGreaterThan(sampled - 0.3);
      }
    }
  });

  it('of 12 random tubes to themselves, points further apart along them than pi x the least CLR', () => {
    const random = randomFrom(36);
    let close = 0;
    for (let i = 0; i < 12; i++) {
      const { line, stations } = randomTube(random, random.whole(4, 6), 100);
      const packed = packCentreLine(line);
      const apart = Math.PI * 42.4;
      const some = stations.filter((_, k) => k % 6 === 0);
      let sampled = 1000;
      for (const p of some)
        for (const q of some) if (q.s - p.s >= apart) sampled = Math.min(sampled, far(p.p, q.p) - 48.4);
      const found = leastSpareWithin(packed, apart, 48.4, march(0.2));
      expect(found).toBeLessThan(sampled + 0.2 + 1e-9);
      expect(found).toBeGreaterThan(sampled - 0.7);
      if (sampled < 0) close++;
    }
    // Some of them do run into themselves, or nothing was tried.
    expect(close).toBeGreaterThan(3);
  });
});
