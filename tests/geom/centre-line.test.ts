import { describe, expect, it } from 'vitest';
import { radians } from '../../src/base/numbers.js';
import { randomFrom, type Random } from '../../src/base/random.js';
import {
  cross3,
  direction,
  distance3,
  dot3,
  length3,
  squareTo,
  subtract,
  type Vector,
} from '../../src/base/vectors.js';
import { centreLineOf, missOf, type CentreLineRow } from '../../src/geom/centre-line.js';
import { collectorClockingZero, portClockingZero } from '../../src/geom/clocking-zero.js';
import { intersectionPointsOf, rowsThrough } from '../../src/geom/intersection-points.js';

const outward = { at: [0, 0, 10], direction: [0, 0, 1], clockReference: [0, 1, 0] } as const;
const fiveRows: CentreLineRow[] = [
  { straight: 40 },
  { clr: 63.6, angle: radians(90), clock: radians(90) },
  { straight: 100 },
  { clr: 63.6, angle: radians(90), clock: radians(90) },
  { straight: 50 },
];

const randomDirection = (random: Random): Vector => {
  for (;;) {
    const v: Vector = [random.between(-1, 1), random.between(-1, 1), random.between(-1, 1)];
    if (length3(v) > 0.2 && length3(v) < 1) return direction(v);
  }
};

const randomStart = (random: Random) => {
  const flow = randomDirection(random);
  return {
    at: [random.between(-300, 300), random.between(-300, 300), random.between(-300, 300)] as Vector,
    direction: flow,
    clockReference: portClockingZero(flow),
  };
};

function randomRows(random: Random): CentreLineRow[] {
  const rows: CentreLineRow[] = [{ straight: random.between(0, 120) }];
  for (let i = random.whole(1, 5); i > 0; i--)
    rows.push(
      {
        clr: random.pick([42.4, 63.6, 76.2]),
        angle: radians(random.between(5, 150)),
        clock: radians(random.between(0, 360)),
      },
      { straight: random.chance(0.2) ? 0 : random.between(1, 150) },
    );
  return rows;
}

describe('centre line of straights and bends', () => {
  it('end and length of 40 / 90 deg / 100 / 90 deg / 50 at CLR 63.6, against the march done by hand', () => {
    // By hand: out 40 + 63.6 = 103.6 to z 113.6; turning left (clock 90 from up about out is -right), x falls
    // 63.6 + 100 + 63.6 = 227.2; carried reference is -out, a further 90 about -right turns it down.
    const line = centreLineOf(outward, fiveRows);
    expect(distance3(line.end.at, [-227.2, -113.6, 113.6])).toBeLessThan(1e-10);
    expect(distance3(line.end.direction, [0, -1, 0])).toBeLessThan(1e-15);
    expect(line.length).toBeCloseTo(190 + 63.6 * Math.PI, 10);
    expect(line.length).toBeCloseTo(389.805293, 6);
  });

  it('poses half way round the first bend, against the circle drawn by hand', () => {
    const line = centreLineOf(outward, fiveRows);
    const pose = line.poseAt(40 + (63.6 * Math.PI) / 4);
    const h = Math.SQRT1_2;
    expect(distance3(pose.at, [-63.6 * (1 - h), 0, 50 + 63.6 * h])).toBeLessThan(1e-10);
    expect(distance3(pose.direction, [-h, 0, h])).toBeLessThan(1e-12);
    expect(distance3(pose.turnToward ?? [9, 9, 9], [-h, 0, -h])).toBeLessThan(1e-12);
    expect(pose.piece).toBe(1);
    expect(pose.along).toBeCloseTo((63.6 * Math.PI) / 4, 10);
  });

  it('stations of both ends and of a joint, and refusal past the ends', () => {
    const line = centreLineOf(outward, fiveRows);
    expect(line.poseAt(0).at).toEqual([0, 0, 10]);
    expect(distance3(line.poseAt(line.length).at, line.end.at)).toBeLessThan(1e-10);
    expect(line.poseAt(40).piece).toBe(1);
    expect(() => line.poseAt(-0.1)).toThrow(RangeError);
    expect(() => line.poseAt(line.length + 0.1)).toThrow(RangeError);
  });

  it('a quarter turn toward each side stays square with nothing left over', () => {
    for (const clock of [0, 90, 180, 270]) {
      const { end } = centreLineOf(outward, [
        { straight: 0 },
        { clr: 50, angle: radians(90), clock: radians(clock) },
        { straight: 0 },
      ]);
      expect(end.direction.map(Math.abs).toSorted()).toEqual([0, 0, 1]);
    }
  });

  it('1000 random tubes: the poses run on without a gap, at unit speed, bending by 1 / CLR', () => {
    const random = randomFrom(11);
    for (let i = 0; i < 1000; i++) {
      const line = centreLineOf(randomStart(random), randomRows(random));
      const step = 1e-3;
      const at = random.between(step, line.length - step);
      const [a, b, c] = [line.poseAt(at - step), line.poseAt(at), line.poseAt(at + step)];
      // The chord between stations 2e-3 apart is that long, and points along the flow of its middle.
      expect(distance3(a.at, c.at)).toBeCloseTo(2 * step, 9);
      expect(distance3(direction(subtract(c.at, a.at)), b.direction)).toBeLessThan(5e-5);
      expect(length3(b.direction)).toBeCloseTo(1, 13);
      const piece = line.pieces[b.piece];
      if (piece?.kind !== 'bend' || a.piece !== b.piece || c.piece !== b.piece) continue;
      const curvature = subtract(c.direction, a.direction);
      expect(length3(curvature) / (2 * step)).toBeCloseTo(1 / piece.clr, 7);
      expect(dot3(direction(curvature), b.turnToward ?? [0, 0, 0])).toBeCloseTo(1, 6);
      expect(distance3(b.at, piece.centre)).toBeCloseTo(piece.clr, 9);
      expect(distance3(cross3(b.direction, b.turnToward ?? [0, 0, 0]), piece.axis)).toBeLessThan(1e-12);
    }
  });

  it('refuses rows that do not alternate, end in a bend, or hold no length', () => {
    const bend = { clr: 60, angle: 1, clock: 0 };
    const refused: CentreLineRow[][] = [
      [],
      [bend],
      [{ straight: 1 }, bend],
      [{ straight: 1 }, { straight: 1 }, { straight: 1 }],
      [{ straight: -1 }],
      [{ straight: Number.NaN }],
      [{ straight: 1 }, { ...bend, angle: 0 }, { straight: 1 }],
      [{ straight: 1 }, { ...bend, clr: -5 }, { straight: 1 }],
      [{ straight: 1 }, { ...bend, clock: Number.POSITIVE_INFINITY }, { straight: 1 }],
    ];
    for (const rows of refused)
      expect(() => centreLineOf(outward, rows), JSON.stringify(rows)).toThrow(RangeError);
    expect(() => centreLineOf({ ...outward, clockReference: [0, 0, 3] }, fiveRows)).toThrow(RangeError);
  });

  it('miss of a pose: distance and angle against a triangle 3-4-5 and a turn of 30 degrees', () => {
    const found = { at: [3, 4, 0], direction: [0, 1, 0] } as const;
    const asked = { at: [0, 0, 0], direction: [0.5, Math.sqrt(3) / 2, 0] } as const;
    expect(missOf(found, asked).distance).toBeCloseTo(5, 12);
    expect(missOf(found, asked).angle).toBeCloseTo(radians(30), 12);
  });
});

describe('intersection points', () => {
  it('of the five rows: the corners of the square path', () => {
    const { points, clrs } = intersectionPointsOf(centreLineOf(outward, fiveRows));
    const corners: Vector[] = [
      [0, 0, 10],
      [0, 0, 113.6],
      [-227.2, 0, 113.6],
      [-227.2, -113.6, 113.6],
    ];
    expect(clrs).toEqual([63.6, 63.6]);
    corners.forEach((corner, i) => expect(distance3(points[i] ?? [9, 9, 9], corner)).toBeLessThan(1e-10));
  });

  it('1000 random tubes come back from their points: straights and radii within 1e-8 mm, angles 1e-10 rad', () => {
    const random = randomFrom(12);
    for (let i = 0; i < 1000; i++) {
      const start = randomStart(random);
      const rows = randomRows(random);
      const back = rowsThrough(intersectionPointsOf(centreLineOf(start, rows)), start.clockReference);
      expect(back?.length).toBe(rows.length);
      rows.forEach((row, k) => {
        const found = back?.[k];
        if (found === undefined || 'straight' in found !== 'straight' in row)
          throw new Error('rows out of turn');
        if ('straight' in row && 'straight' in found)
          expect(Math.abs(found.straight - row.straight)).toBeLessThan(1e-8);
        if ('clr' in row && 'clr' in found) {
          expect(found.clr).toBe(row.clr);
          expect(Math.abs(found.angle - row.angle)).toBeLessThan(1e-10);
          expect(Math.abs(Math.sin((found.clock - row.clock) / 2))).toBeLessThan(1e-10);
        }
      });
    }
  });

  it('a point in line is no bend; points too near leave a straight below 0; doubled points are refused', () => {
    const reference: Vector = [0, 1, 0];
    const inLine: Vector[] = [
      [0, 0, 0],
      [0, 0, 30],
      [0, 0, 100],
    ];
    expect(rowsThrough({ points: inLine, clrs: [60] }, reference)).toEqual([{ straight: 100 }]);
    const tight: Vector[] = [
      [0, 0, 0],
      [0, 0, 50],
      [80, 0, 50],
    ];
    // A quarter turn of CLR 60 takes 60 of each leg: 10 are missing before it, 20 are left after it.
    const rows = rowsThrough({ points: tight, clrs: [60] }, reference) ?? [];
    const straights = rows.map((row) => ('straight' in row ? row.straight : Number.NaN));
    expect(straights[0]).toBeCloseTo(-10, 10);
    expect(straights[2]).toBeCloseTo(20, 10);
    const back: Vector[] = [
      [0, 0, 0],
      [0, 0, 50],
      [0, 0, 20],
    ];
    expect(rowsThrough({ points: back, clrs: [60] }, reference)).toBeUndefined();
    expect(rowsThrough({ points: [back[0] ?? [0, 0, 0], [0, 0, 0]], clrs: [] }, reference)).toBeUndefined();
  });
});

describe('clocking zero', () => {
  it('of a port leaving 12 degrees down: up, leaning out by as much', () => {
    const [s, c] = [Math.sin(radians(12)), Math.cos(radians(12))];
    expect(distance3(portClockingZero([0, -s, c]), [0, c, s])).toBeLessThan(1e-12);
  });

  it('changes over at 8 degrees of up or down, and of out for the collector', () => {
    const leaning = (angle: number, sign: number): Vector => [
      Math.sin(radians(angle)),
      sign * Math.cos(radians(angle)),
      0,
    ];
    for (const sign of [1, -1]) {
      expect(portClockingZero(leaning(7.9, sign))).toEqual([0, 0, 1]);
      expect(dot3(portClockingZero(leaning(8.1, sign)), [0, 1, 0])).toBeCloseTo(Math.sin(radians(8.1)), 12);
    }
    expect(collectorClockingZero([0, -1, 0])).toEqual([0, 0, 1]);
    expect(collectorClockingZero([0, 0, -1])).toEqual([0, 1, 0]);
    const random = randomFrom(13);
    for (let i = 0; i < 200; i++) {
      const flow = randomDirection(random);
      expect(Math.abs(dot3(collectorClockingZero(flow), flow))).toBeLessThan(1e-14);
      expect(length3(squareTo(portClockingZero(flow), flow))).toBeCloseTo(1, 13);
    }
  });
});
