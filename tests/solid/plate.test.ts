import { beforeAll, describe, expect, test } from 'vitest';
import { Refusal } from '../../src/base/problems.js';
import type { PlatePart } from '../../src/design/parts.js';
import { circleLoop, reversedLoop } from '../../src/geom/loops.js';
import type { CurveLoop } from '../../src/geom/segments.js';
import { openKernel, plateSolid, readStep, writeStep, type Kernel } from '../../src/solid/index.js';
import { disc, ellipseLoop, flangePlate, plainPlate, roundedRectangle } from '../support/plates.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await openKernel();
});

const volumeOf = (part: PlatePart): number => {
  const solid = plateSolid(kernel, part);
  solid.dispose();
  return solid.volume;
};

/** The codes a part is refused with, and its words. */
const refusalOf = (part: PlatePart): { codes: string[]; what: string } => {
  try {
    plateSolid(kernel, part).dispose();
  } catch (error) {
    if (error instanceof Refusal) {
      return { codes: error.problems.map((p) => p.code), what: error.problems.map((p) => p.what).join() };
    }
    throw error;
  }
  return { codes: [], what: '' };
};

const opening = (name: string, exact: CurveLoop): PlatePart['openings'][number] => ({
  name,
  loop: circleLoop([0, 0], 20),
  exact,
});

describe('volume of a plate against textbook areas x thickness', () => {
  test('rounded rectangle: w h - (4 - pi) r^2', () => {
    expect(volumeOf(plainPlate())).toBeCloseTo(10 * (420 * 90 - (4 - Math.PI) * 400), 5);
  });

  test('disc: pi r^2', () => {
    expect(volumeOf(plainPlate({ outline: disc(65), thickness: 6 }))).toBeCloseTo(6 * Math.PI * 65 ** 2, 6);
  });

  test('four ports and ten stud holes, cut and drilled alike', () => {
    const ports = 4 * (38 * 34 - (4 - Math.PI) * 100);
    const holes = 10 * Math.PI * 4.5 ** 2;
    const asked = 10 * (420 * 90 - (4 - Math.PI) * 400 - ports - holes);
    expect(volumeOf(flangePlate())).toBeCloseTo(asked, 5);
    const drilled = flangePlate().holes.map((hole) => ({ ...hole, made: 'drilled' as const }));
    expect(volumeOf(flangePlate({ holes: drilled }))).toBeCloseTo(asked, 5);
  });

  test('opening for a tube leaning 10 degrees, a true ellipse in the solid: pi a b', () => {
    const [a, b] = [21.2 / Math.cos(Math.PI / 18), 21.2];
    const part = plainPlate({
      outline: disc(65),
      openings: [opening('tube S1', ellipseLoop([20, 5], a, b, 0.6))],
    });
    expect(volumeOf(part)).toBeCloseTo(10 * (Math.PI * 65 ** 2 - Math.PI * a * b), 5);
  });

  test('shadow of a leaning tube, half ellipses d apart: pi a b + 2 b d', () => {
    const [a, b, d] = [22, 21.2, 3];
    const half = { kind: 'ellipse', major: a, minor: b, turn: 0, sweep: Math.PI } as const;
    const shadow: CurveLoop = [
      { kind: 'line', from: [0, -b], to: [d, -b] },
      { ...half, centre: [d, 0], from: [d, -b], to: [d, b], start: -Math.PI / 2 },
      { kind: 'line', from: [d, b], to: [0, b] },
      { ...half, centre: [0, 0], from: [0, b], to: [0, -b], start: Math.PI / 2 },
    ];
    const asked = 10 * (Math.PI * 65 ** 2 - Math.PI * a * b - 2 * b * d);
    expect(volumeOf(plainPlate({ outline: disc(65), openings: [opening('tube S1', shadow)] }))).toBeCloseTo(
      asked,
      5,
    );
    const back = reversedLoop(shadow);
    expect(volumeOf(plainPlate({ outline: disc(65), openings: [opening('tube S1', back)] }))).toBeCloseTo(
      asked,
      5,
    );
  });

  test('a contour travelled clockwise encloses the same metal', () => {
    const outline = reversedLoop(roundedRectangle([0, 0], 420, 90, 20));
    const holes = flangePlate().holes;
    expect(volumeOf(plainPlate({ outline, holes }))).toBeCloseTo(volumeOf(plainPlate({ holes })), 6);
  });

  test('joints a tenth of the same-point tolerance apart still close', () => {
    const shaken = roundedRectangle([0, 0], 420, 90, 20).map((piece, i) => ({
      ...piece,
      from: [piece.from[0] + 1e-7 * Math.sin(i), piece.from[1] + 1e-7 * Math.cos(i)] as const,
    }));
    expect(volumeOf(plainPlate({ outline: shaken }))).toBeCloseTo(volumeOf(plainPlate()), 1);
  });
});

describe('pockets', () => {
  const bore = { name: 'port P1', loop: circleLoop([0, 0], 19), exact: undefined };

  test('socket round a bore: pi (R^2 - r^2) x depth less metal', () => {
    const pockets = [{ name: 'socket P1', loop: circleLoop([0, 0], 21.3), depth: 4 }];
    const asked = Math.PI * (65 ** 2 - 19 ** 2) * 10 - Math.PI * (21.3 ** 2 - 19 ** 2) * 4;
    expect(volumeOf(plainPlate({ outline: disc(65), openings: [bore], pockets }))).toBeCloseTo(asked, 4);
  });

  test('socket that an opening runs out of: only the metal left in it is sunk', () => {
    // The opening covers the right half of the socket.
    const half = { name: 'port P1', loop: roundedRectangle([20, 0], 40, 50, 5), exact: undefined };
    const pockets = [{ name: 'socket P1', loop: circleLoop([0, 0], 15), depth: 4 }];
    const open = 40 * 50 - (4 - Math.PI) * 25;
    const asked = (Math.PI * 65 ** 2 - open) * 10 - (Math.PI * 15 ** 2 * 4) / 2;
    const found = volumeOf(plainPlate({ outline: disc(65), openings: [half], pockets }));
    expect(found / asked).toBeCloseTo(1, 8);
  });

  test('a pocket as deep as the plate is a hole: refused with its limits', () => {
    const pockets = [{ name: 'socket P1', loop: circleLoop([0, 0], 20), depth: 10 }];
    const { codes, what } = refusalOf(plainPlate({ pockets }));
    expect(codes).toEqual(['solid/size']);
    expect(what).toBe('test-plate: depth of socket P1 is 10 mm; it must be over 0 and under 10 mm');
  });

  test('a pocket that runs over the outline', () => {
    const pockets = [{ name: 'socket P1', loop: circleLoop([0, 45], 20), depth: 4 }];
    expect(refusalOf(plainPlate({ pockets })).codes).toEqual(['solid/volume']);
  });
});

describe('a broken plate is refused in words', () => {
  test('openings that overlap', () => {
    const openings = [circleLoop([0, 0], 20), circleLoop([25, 0], 20)].map((loop, i) => ({
      name: `port P${i + 1}`,
      loop,
      exact: undefined,
    }));
    const { codes, what } = refusalOf(plainPlate({ openings }));
    expect(codes).toHaveLength(1);
    expect(['solid/volume', 'solid/unsound', 'solid/count', 'solid/kernel']).toContain(codes[0]);
    expect(what).toMatch(/^test-plate: /);
  });

  test('a hole that lies outside the plate', () => {
    const holes = [{ name: 'stud 1', at: [0, 300] as const, diameter: 9, made: 'cut' as const }];
    const { codes } = refusalOf(plainPlate({ holes }));
    expect(['solid/volume', 'solid/unsound', 'solid/count']).toContain(codes[0]);
  });

  test('an outline with a gap of 0.01 mm', () => {
    const outline = roundedRectangle([0, 0], 420, 90, 20).map((piece, i) =>
      i === 0 ? { ...piece, to: [piece.to[0] - 0.01, piece.to[1]] as const } : piece,
    );
    const { codes, what } = refusalOf(plainPlate({ outline }));
    expect(codes).toEqual(['solid/open-contour']);
    expect(what).toContain('gap of 0.01 mm');
  });

  test.each([0, -3, Number.NaN, Number.POSITIVE_INFINITY])('thickness %d', (thickness) => {
    expect(refusalOf(plainPlate({ thickness })).codes).toEqual(['solid/size']);
  });

  test('a hole that stands nowhere', () => {
    const holes = [{ name: 'stud 1', at: [Number.NaN, 0] as const, diameter: 9, made: 'cut' as const }];
    expect(refusalOf(plainPlate({ holes })).codes).toEqual(['solid/open-contour']);
  });
});

test('holes read back from the STEP file: number, diameter, place and depth as drawn', () => {
  const solid = plateSolid(kernel, flangePlate());
  const [back] = readStep(kernel, writeStep(kernel, [{ solid }])).solids;
  solid.dispose();
  expect(back?.holes).toHaveLength(10);
  back?.holes.forEach((hole) => {
    expect(hole.diameter).toBeCloseTo(9, 9);
    expect(hole.depth).toBeCloseTo(10, 9);
    expect(hole.axis).toEqual([0, 0, 1]);
  });
  const drawn = flangePlate()
    .holes.map(({ at }) => at.join())
    .sort();
  expect(back?.holes.map(({ at }) => `${at[0]},${at[1]}`).sort()).toEqual(drawn);
});
