import { describe, expect, it } from 'vitest';
import { radians } from '../../src/base/numbers.js';
import { randomFrom } from '../../src/base/random.js';
import {
  cradleBox,
  cradleFaults,
  floorOf,
  saddleSpan,
  type SaddleShape,
  strapUnder,
} from '../../src/design/cradle-limits.js';
import type { CradlePart } from '../../src/design/parts.js';
import { centreLineOf } from '../../src/geom/centre-line.js';

const level: SaddleShape = {
  od: 42.4,
  clearance: 0.3,
  height: 60,
  tilt: 0,
  bend: undefined,
  width: 20,
  embrace: Math.PI,
};
const cradle: CradlePart = {
  ...level,
  kind: 'cradle',
  name: 'cradle-P1-1',
  family: 'cradle',
  title: 'Cradle',
  halfBreadth: 28,
  strap: { width: 13, depth: 3, floor: 6 },
  foot: { thickness: 6, tab: 15, hole: 4.5 },
  engraving: { text: 'P1-1 120', depth: 0.6, height: 6 },
  remarks: [],
  primary: 'P1',
  station: 120,
};

/** The tube's own surface grown by the clearance, laid densely along an independent centre line. */
function laidSurface(shape: SaddleShape) {
  const { tilt, bend, height, width, embrace } = shape;
  const radius = shape.od / 2 + shape.clearance;
  const along: [number, number, number] = [Math.cos(tilt), 0, Math.sin(tilt)];
  const up: [number, number, number] = [-Math.sin(tilt), 0, Math.cos(tilt)];
  const out = { lowest: Infinity, highest: -Infinity, sideways: 0, reach: 0 };
  for (const way of [1, -1]) {
    // The line runs on from the station, or back from it: backward both flow and clock turn over.
    const flow: [number, number, number] = [along[0] * way, 0, along[2] * way];
    const line = centreLineOf(
      { at: [0, 0, height], direction: flow, clockReference: up },
      bend === undefined
        ? [{ straight: 80 }]
        : [{ straight: 0 }, { clr: bend.clr, angle: 1.3, clock: bend.clock * way }, { straight: 0 }],
    );
    for (let s = 0; s <= Math.min(line.length, 70); s += 0.1) {
      const { at, direction: d } = line.poseAt(s);
      const flat = Math.hypot(d[0], d[1]);
      const u = [(-d[2] * d[0]) / flat, (-d[2] * d[1]) / flat, flat] as const;
      const v = [-d[1] / flat, d[0] / flat, 0] as const;
      for (let k = 0; k <= 180; k++) {
        const round = embrace * (k / 180 - 0.5);
        const [c, n] = [-Math.cos(round) * radius, Math.sin(round) * radius];
        const x = at[0] + c * u[0] + n * v[0];
        if (Math.abs(x) > width / 2) continue;
        const z = at[2] + c * u[2];
        out.lowest = Math.min(out.lowest, z);
        out.highest = Math.max(out.highest, z);
        out.sideways = Math.max(out.sideways, Math.abs(at[1] + c * u[1] + n * v[1]));
        out.reach = Math.max(out.reach, s);
      }
    }
  }
  return out;
}

describe('saddle of a cradle', () => {
  it('level straight, 42.4 tube with 0.3 all round, 60 up, 20 wide: 38.5 to 60, 21.5 aside, 10 each way', () => {
    expect(saddleSpan(level)).toEqual({ reach: 10, lowest: 38.5, highest: 60, sideways: 21.5, steepest: 0 });
  });

  it('straight rising 30 degrees, against R / cos a + w / 2 tan a worked by hand', () => {
    const span = saddleSpan({ ...level, tilt: radians(-30) });
    // 21.5 / cos 30 = 24.826, 10 tan 30 = 5.774; along the tube (10 + 21.5 sin 30) / cos 30 = 23.960.
    expect(span.lowest).toBeCloseTo(60 - 24.826 - 5.774, 3);
    expect(span.reach).toBeCloseTo(23.96, 3);
    expect(span.highest).toBeCloseTo(65.774, 3);
  });

  it('60 random straights and bends, against a dense laying of the tube surface (0.05 mm, lips 0.15)', () => {
    const random = randomFrom(31);
    for (let i = 0; i < 60; i++) {
      const shape: SaddleShape = {
        od: random.pick([33.7, 42.4, 48.3]),
        clearance: random.between(0.2, 0.8),
        height: 90,
        tilt: radians(random.between(-32, 32)),
        bend: random.chance(0.25)
          ? undefined
          : { clr: random.between(63.6, 120), clock: random.between(0, 2 * Math.PI) },
        width: random.between(12, 26),
        embrace: radians(random.between(100, 180)),
      };
      const span = saddleSpan(shape);
      const laid = laidSurface(shape);
      expect(Math.abs(span.lowest - laid.lowest), JSON.stringify(shape)).toBeLessThan(0.05);
      expect(Math.abs(span.sideways - laid.sideways), JSON.stringify(shape)).toBeLessThan(0.05);
      expect(Math.abs(span.highest - laid.highest), JSON.stringify(shape)).toBeLessThan(0.15);
      expect(Math.abs(span.reach - laid.reach), JSON.stringify(shape)).toBeLessThan(0.25);
    }
  });

  it('steepest rise over a level bend turning up, CLR 63.6, 20 wide: asin of what its outer side reaches', () => {
    // At the bottom the saddle lies outside the bend: 20 mm of chord at radius 63.6 + 21.5, asin(10 / 85.1);
    // at the lips it lies at the bend's own radius, asin(10 / 63.6).
    const span = saddleSpan({ ...level, bend: { clr: 63.6, clock: 0 } });
    expect(span.steepest).toBeCloseTo(Math.asin(10 / 63.6), 2);
    // Turning down, the bottom lies inside the bend: asin(10 / 42.1).
    const down = saddleSpan({ ...level, bend: { clr: 63.6, clock: Math.PI } });
    expect(down.steepest).toBeCloseTo(Math.asin(10 / 42.1), 2);
  });
});

describe('limits of a cradle', () => {
  it('an ordinary cradle breaks none; its box on the bed is width by both tabs by lips', () => {
    expect(cradleFaults(cradle, 6)).toEqual([]);
    expect(cradleBox(cradle)).toEqual({ along: 20, across: 86, high: 60 });
    expect(floorOf(cradle)).toBeCloseTo(38.5 - 6 - 3, 12);
  });

  it('each limit is told with what was found', () => {
    const of = (change: Partial<CradlePart>) => cradleFaults({ ...cradle, ...change }, 6);
    expect(of({ tilt: radians(50), height: 120 })).toEqual([
      { of: 'tilt', found: radians(50), limit: radians(45) },
    ]);
    expect(of({ embrace: radians(190) })[0]).toMatchObject({ of: 'embrace', limit: Math.PI });
    expect(of({ embrace: radians(30) })[0]).toMatchObject({ of: 'embrace', limit: radians(40) });
    // 21.5 under the tube, 6 foot, 3 strap, 6 wall: 36.5 is the least height.
    expect(of({ height: 36.5 })).toEqual([]);
    const low = of({ height: 36 });
    expect(low).toHaveLength(1);
    expect(low[0]?.of).toBe('floor');
    expect(low[0]?.found).toBeCloseTo(5.5, 12);
    expect(of({ halfBreadth: 27 })[0]).toEqual({ of: 'breadth', found: 27, limit: 27.5 });
    expect(of({ strap: { width: 17, depth: 3, floor: 6 } })[0]).toEqual({
      of: 'strap',
      found: 17,
      limit: 16,
    });
    expect(of({ foot: { thickness: 6, tab: 8, hole: 4.5 } })[0]).toEqual({
      of: 'foot',
      found: 4.5,
      limit: 4,
    });
  });
});

describe("the strap's slot", () => {
  const foot = { thickness: 6, tab: 15, hole: 4.5 };
  const span = saddleSpan({
    od: 42.4,
    clearance: 0.3,
    height: 100,
    tilt: 0,
    bend: undefined,
    width: 20,
    embrace: Math.PI,
  });

  it('runs under the saddle by the wall asked, however tall the cradle: 100 - 21.5 - 6 - 3 = 69.5', () => {
    expect(strapUnder({ width: 13, depth: 3 }, foot, span, 6)?.floor).toBeCloseTo(69.5, 9);
  });

  it('never sinks into the foot', () => {
    expect(strapUnder({ width: 13, depth: 3 }, foot, { ...span, lowest: 12 }, 6)?.floor).toBe(6);
  });
});
