import { beforeAll, describe, expect, test } from 'vitest';
import { radians } from '../../src/base/numbers.js';
import { Refusal } from '../../src/base/problems.js';
import { randomFrom } from '../../src/base/random.js';
import { cross3, direction, type Vector } from '../../src/base/vectors.js';
import { centreLineOf } from '../../src/geom/centre-line.js';
import { openKernel, tubeSolid, type Kernel, type TubePiece, type TubeSpec } from '../../src/solid/index.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await openKernel();
});

const quarter = (clr: number): TubePiece => ({
  kind: 'bend',
  from: [0, 0, 0],
  to: [0, clr, clr],
  centre: [0, clr, 0],
  axis: [-1, 0, 0],
  clr,
  angle: Math.PI / 2,
});

const volumeOf = (spec: Omit<TubeSpec, 'name'>): number => {
  const solid = tubeSolid(kernel, { name: 'tube', ...spec });
  solid.dispose();
  return solid.volume;
};

const codesOf = (spec: Omit<TubeSpec, 'name'>): string[] => {
  try {
    volumeOf(spec);
  } catch (error) {
    if (error instanceof Refusal) return error.problems.map(({ code }) => code);
    throw error;
  }
  return [];
};

describe('volume of a quarter bend of 42.4 x 2.0, CLR 63.6, against Pappus (re-computed by quadrature elsewhere)', () => {
  test.each([
    ['wall', 2, 25359.3563],
    ['full', undefined, 141058.2811],
  ] as const)('%s', (_, wall, asked) => {
    expect(volumeOf({ pieces: [quarter(63.6)], od: 42.4, wall }) / asked).toBeCloseTo(1, 8);
  });

  test.each([
    [42.4, 16906.2376],
    [84.8, 33812.4751],
    [127.2, 50718.7127],
  ])('the same at CLR %d', (clr, asked) => {
    expect(volumeOf({ pieces: [quarter(clr)], od: 42.4, wall: 2 }) / asked).toBeCloseTo(1, 8);
  });
});

test('mass of a metre of 42.4 x 2.0 in 304, 7900 kg/m3 (EN 10088-1): 2.0053 kg', () => {
  const volume = volumeOf({
    pieces: [{ kind: 'straight', from: [0, 0, 0], to: [600, 0, 800] }],
    od: 42.4,
    wall: 2,
  });
  expect(volume * 7900e-9).toBeCloseTo(2.0053, 4);
});

test('20 random primaries, two to five bends, as marched by the centre line: the proof holds on each', () => {
  const random = randomFrom(7);
  for (let i = 0; i < 20; i++) {
    const rows = Array.from({ length: random.whole(2, 5) }, () => [
      {
        clr: random.pick([63.6, 84.8]),
        angle: radians(random.between(8, 110)),
        clock: random.between(0, 6.28),
      },
      { straight: random.between(0, 80) },
    ]).flat();
    const line = centreLineOf({ at: [30, 10, 0], direction: [0.1, -0.2, 0.97], clockReference: [0, 1, 0] }, [
      { straight: 30 },
      ...rows,
    ]);
    const volume = volumeOf({ pieces: line.pieces, od: 42.4, wall: 1.6 });
    expect(volume / (Math.PI * (21.2 ** 2 - 19.6 ** 2) * line.length)).toBeCloseTo(1, 9);
  }
});

test('the box of 40 bends turned any way in space, against points all over their surface', () => {
  const random = randomFrom(3);
  for (let i = 0; i < 40; i++) {
    const any = (): Vector => [random.between(-1, 1), random.between(-1, 1), random.between(-1, 1)];
    const line = centreLineOf({ at: any(), direction: direction(any()), clockReference: any() }, [
      { straight: 0 },
      { clr: 63.6, angle: random.between(0.5, 3), clock: 0 },
      { straight: 0 },
    ]);
    const solid = tubeSolid(kernel, { name: 'bend', pieces: line.pieces, od: 42.4, wall: undefined });
    const [least, most] = [
      [Infinity, Infinity, Infinity],
      [-Infinity, -Infinity, -Infinity],
    ];
    for (let s = 0; s <= 300; s++) {
      const { at, direction: flow, turnToward } = line.poseAt((line.length * s) / 300);
      const toward = turnToward ?? [0, 0, 0];
      const side = cross3(flow, toward);
      for (let k = 0; k < 240; k++) {
        const turn = (Math.PI * k) / 120;
        for (const axis of [0, 1, 2] as const) {
          const x = at[axis] + 21.2 * (Math.cos(turn) * toward[axis] + Math.sin(turn) * side[axis]);
          least[axis] = Math.min(least[axis] ?? x, x);
          most[axis] = Math.max(most[axis] ?? x, x);
        }
      }
    }
    for (const axis of [0, 1, 2] as const) {
      const [under, over] = [
        (least[axis] ?? NaN) - solid.bounds.low[axis],
        solid.bounds.high[axis] - (most[axis] ?? NaN),
      ];
      for (const room of [under, over]) {
        expect(room).toBeGreaterThan(-1e-4);
        expect(room).toBeLessThan(0.02);
      }
    }
    solid.dispose();
  }
});

describe('a tube that cannot be is refused', () => {
  const straight = { kind: 'straight', from: [0, 0, -50], to: [0, 0, 0] } as const;
  test('a bend tighter than the tube is thick', () => {
    expect(codesOf({ pieces: [straight, quarter(20)], od: 42.4, wall: 2 })).toEqual(['solid/size']);
  });
  test('a wall of half the diameter', () => {
    expect(codesOf({ pieces: [straight], od: 42.4, wall: 21.2 })).toEqual(['solid/size']);
  });
  test('a kink of 1 degree, a gap of 0.01 mm, a bend that does not end where it says', () => {
    const kinked = { ...straight, from: [0, 50 * Math.tan(radians(1)), -50] } as const;
    const apart = { ...straight, to: [0, 0, -0.01] } as const;
    const stray = { ...quarter(63.6), to: [0, 63.6, 63.7] } as const;
    for (const pieces of [
      [kinked, quarter(63.6)],
      [apart, quarter(63.6)],
      [straight, stray],
    ]) {
      expect(codesOf({ pieces, od: 42.4, wall: 2 })).toEqual(['solid/kinked-tube']);
    }
  });
  test('no pieces at all', () => {
    expect(codesOf({ pieces: [], od: 42.4, wall: 2 })).toEqual(['solid/size']);
  });
});
