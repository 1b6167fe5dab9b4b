import { describe, expect, it } from 'vitest';
import { radians } from '../../../src/base/numbers.js';
import { bendTableOf, bendTableThrough } from '../../../src/design/pieces/bend-table.js';
import { arcTime } from '../../../src/design/pieces/estimates.js';
import { arcMark, gainOf, setBack, tubeMass } from '../../../src/design/pieces/marks.js';
import { primariesToCut } from '../../../src/design/pieces/primaries-to-cut.js';
import { arcGap } from '../../../src/design/pieces/rules.js';
import { linesByHand } from '../../../src/design/routes-by-hand.js';
import { centreLineOf, type CentreLineRow } from '../../../src/geom/centre-line.js';
import { readJob } from '../../../src/job/index.js';
import { usualWelding } from '../../../src/job/shop.js';

const start = { at: [0, 0, 0], direction: [0, 0, 1], clockReference: [0, 1, 0] } as const;

describe('offsets', () => {
  it('two bends of 30 deg, CLR 63.6, 40 mm between: offset 37.0416, run 98.241, length 106.6018 (h = 2R (1 - cos) + s sin)', () => {
    const rows: CentreLineRow[] = [
      { straight: 0 },
      { clr: 63.6, angle: radians(30), clock: 0 },
      { straight: 40 },
      { clr: 63.6, angle: radians(30), clock: Math.PI },
      { straight: 0 },
    ];
    const { end } = centreLineOf(start, rows);
    expect(Math.abs(end.at[1] - 37.0416)).toBeLessThan(5e-4);
    expect(Math.abs(end.at[2] - 98.241)).toBeLessThan(5e-4);
    expect(end.direction[2]).toBeCloseTo(1, 12);
    expect(Math.abs(bendTableOf(rows).developed - 106.6018)).toBeLessThan(5e-4);
  });

  it("a 60 deg offset of 12 in with sharp corners: run 6.9288, travel 13.8564 in (plumbers' rule, A x .5774, A x 1.1547)", () => {
    // As the radius goes to nothing the straight between the bends becomes the travel.
    const table = bendTableThrough({
      points: [
        [0, 0, 0],
        [20, 0, 0],
        [20 + 6.9288, 12, 0],
        [47, 12, 0],
      ],
      clrs: [1e-6, 1e-6],
    });
    expect(Math.abs((table?.rows[1]?.length ?? NaN) - 13.8564)).toBeLessThan(1e-3);
    for (const { angle } of table?.rows ?? []) expect(Math.abs(angle - radians(60))).toBeLessThan(1e-4);
    expect(table?.rows).toHaveLength(2);
  });
});

describe('a simple curve as surveyors set it out', () => {
  // Degree of curve by the arc: 100 ft of it turn 1 deg at a radius of 5729.58 ft. Layout example of surveying
  // handbooks, from memory: curve of 15 deg, 45 deg between the tangents: R 381.97, T 158.22, L 300, long chord
  // 292.35 ft; and of 75 deg: T 293.10, L 500, long chord 465.06 ft.
  it.each([
    [45, 158.22, 300, 292.35],
    [75, 293.1, 500, 465.06],
  ])(
    '%i deg of turn on a 15 degree curve: tangent %d, length %i, long chord %d',
    (turn, tangent, length, chord) => {
      const clr = 5729.58 / 15;
      const angle = radians(turn);
      expect(Math.abs(setBack(clr, angle) - tangent)).toBeLessThan(0.01);
      expect(Math.abs(2 * setBack(clr, angle) - gainOf(clr, angle) - length)).toBeLessThan(0.01);
      const mark = arcMark({ clr, od: 0, angle, from: 'A' }, undefined);
      expect(Math.abs(mark.centre - length)).toBeLessThan(0.01);
      expect(Math.abs(mark.outsideChord - chord)).toBeLessThan(0.02);
    },
  );
});

describe("a quarter bend of 42.4 x 2.0 by Pappus' theorems", () => {
  it.each([
    [42.4, 66.6018, 99.9026, 33.3009, 16906.2376],
    [63.6, 99.9026, 133.2035, 66.6018, 25359.3563],
    [84.8, 133.2035, 166.5044, 99.9026, 33812.4751],
    [127.2, 199.8053, 233.1062, 166.5044, 50718.7127],
  ])('CLR %d: arcs %d, %d outside, %d inside, metal %d mm3', (clr, centre, outside, inside, metal) => {
    const mark = arcMark({ clr, od: 42.4, angle: radians(90), from: 'A' }, undefined);
    expect(Math.abs(mark.centre - centre)).toBeLessThan(5e-4);
    expect(Math.abs(mark.outside - outside)).toBeLessThan(5e-4);
    expect(Math.abs(mark.inside - inside)).toBeLessThan(5e-4);
    expect(Math.abs(tubeMass(42.4, 2, centre, 1e9) / metal - 1)).toBeLessThan(2e-6);
  });

  it('chord of a quarter turn on the centre line: 89.944 mm at CLR 63.6', () => {
    const { outsideChord } = arcMark({ clr: 63.6, od: 0, angle: radians(90), from: 'A' }, undefined);
    expect(Math.abs(outsideChord - 89.944)).toBeLessThan(1e-3);
  });
});

describe('saw, mass and time', () => {
  it('40 + 50 + 60 deg and two cuts of 2 mm take 153.604 deg by kerf / CLR, 155.41 where the inside is not to be bitten', () => {
    const gap = arcGap({ kerf: 2, dress: 0, rawTrim: 0 }, 63.6, 42.4);
    expect(150 + (2 * 2 * 180) / (63.6 * Math.PI)).toBeCloseTo(153.60351, 5);
    // asin(2 / 42.4) = 2.7036 deg: sine table.
    expect(Math.abs(150 + (2 * gap * 180) / Math.PI - 155.4073)).toBeLessThan(5e-4);
  });

  it('42.4 x 2.0 stainless: 2.02 kg / m in ISO 1127 (from memory), within its rounding of density', () => {
    expect(Math.abs(tubeMass(42.4, 2, 1000, 7900) - 2.02)).toBeLessThan(0.02);
  });

  it('a weld takes a quarter of an hour by hand, fit-up and all: 12 of them three hours (common practice, no source)', () => {
    const each = usualWelding.fitUp + arcTime(133.2035, usualWelding);
    expect(Math.abs(12 * each - 180)).toBeLessThan(5);
  });
});

describe('the oblique first cut of 42.4 tube, against the drop of plane-cut wrap templates', () => {
  it.each([
    [9, 6.7155],
    [11.25, 8.4339],
    [15, 11.361],
    [22.5, 17.5627],
    [30, 24.4797],
    [45, 42.4],
  ])('%d deg: %d mm from the long side to the short, half of it beyond the axis', (lean, drop) => {
    const job = readJob(`job: lean
ports: { shape: { circle: { diameter: 36 } }, row: { count: 1 }, leaving: { down: ${lean} } }
studs: { thread: M8, at: [[45, 0], [-45, 0]] }
flange: { thickness: 10 }
tube: { od: 42.4, wall: 1.6 }
primaries: { by_hand: { P1: [{ straight: 400 }] } }
`);
    if (!job.value) throw new Error(JSON.stringify(job.problems));
    const line = linesByHand(job.value).get('P1');
    if (!line) throw new Error('no line');
    const [primary] = primariesToCut(job.value, [{ id: 'P1', line, rows: [{ straight: 400 }] }]);
    expect(Math.abs(2 * (primary?.oblique ?? NaN) - drop)).toBeLessThan(1e-3);
  });
});
