import { beforeAll, describe, expect, test } from 'vitest';
import { frameFacing } from '../../src/base/frames.js';
import { radians } from '../../src/base/numbers.js';
import { letter } from '../../src/design/lettering.js';
import { common } from '../../src/solid/boolean.js';
import {
  cradleSolid,
  openKernel,
  plateSolid,
  tubeSolid,
  writeStep,
  type Kernel,
  type Solid,
} from '../../src/solid/index.js';
import { prove } from '../../src/solid/prove.js';
import { trialCradle } from '../support/cradles.js';
import { readWithOther } from '../support/other-kernel.js';
import { disc, ellipseLoop, flangePlate, plainPlate } from '../support/plates.js';

/*
 * Every kind of solid, written by our kernel and read back by an independent one. Loading that takes 5 s, so
 * all of it is in this one file.
 */
let kernel: Kernel;
beforeAll(async () => {
  kernel = await openKernel();
});

const cradle = (over: Parameters<typeof trialCradle>[0]): Solid => {
  const part = trialCradle(over);
  return cradleSolid(kernel, part, letter(part.engraving.text, part.engraving.height));
};

const PARTS: readonly (readonly [string, () => Solid])[] = [
  ['port flange', () => plateSolid(kernel, flangePlate())],
  [
    'merge plate with true ellipses',
    () =>
      plateSolid(
        kernel,
        plainPlate({
          outline: disc(65),
          openings: [0, 1, 2, 3].map((i) => ({
            name: `tube S${i + 1}`,
            loop: disc(1),
            exact: ellipseLoop(
              [33 * Math.cos((i * Math.PI) / 2), 33 * Math.sin((i * Math.PI) / 2)],
              21.5,
              21.2,
              (i * Math.PI) / 2,
            ),
          })),
        }),
      ),
  ],
  [
    'plate with a pocket',
    () => plateSolid(kernel, plainPlate({ pockets: [{ name: 'socket', loop: disc(21), depth: 4 }] })),
  ],
  [
    'bent tube',
    () =>
      tubeSolid(kernel, {
        name: 'P1',
        pieces: [
          { kind: 'straight', from: [0, 0, -40], to: [0, 0, 0] },
          {
            kind: 'bend',
            from: [0, 0, 0],
            to: [0, 63.6, 63.6],
            centre: [0, 63.6, 0],
            axis: [-1, 0, 0],
            clr: 63.6,
            angle: Math.PI / 2,
          },
        ],
        od: 42.4,
        wall: 2,
      }),
  ],
  ['cradle on a straight, with lettering', () => cradle({ tilt: radians(10) })],
  ['cradle on a bend, with lettering', () => cradle({ bend: { clr: 63.6, clock: 1 }, tilt: radians(10) })],
];

describe('read back by an independent kernel: valid, and as heavy', () => {
  test.each(PARTS)('%s', async (_, make) => {
    const solid = make();
    const found = await readWithOther(writeStep(kernel, [{ solid }]));
    expect(found).toHaveLength(1);
    expect(found[0]?.valid).toBe(true);
    expect(found[0]?.strict).toBe(true);
    expect((found[0]?.volume ?? 0) / solid.volume).toBeCloseTo(1, 6);
    solid.dispose();
  });

  test('the strict check can tell: a tube that runs through itself', async () => {
    const angle = radians(300);
    const [s, c] = [Math.sin(angle), Math.cos(angle)];
    const to = [0, 50 - 50 * c, 50 * s] as const;
    const solid = tubeSolid(kernel, {
      name: 'knot',
      pieces: [
        { kind: 'straight', from: [0, 0, -150], to: [0, 0, 0] },
        { kind: 'bend', from: [0, 0, 0], to, centre: [0, 50, 0], axis: [-1, 0, 0], clr: 50, angle },
        { kind: 'straight', from: to, to: [0, to[1] + 150 * s, to[2] + 150 * c] },
      ],
      od: 42.4,
      wall: undefined,
    });
    const [found] = await readWithOther(writeStep(kernel, [{ solid }]));
    expect(found?.strict).toBe(false);
    solid.dispose();
  });

  test('an assembly of two placed plates, AP214', async () => {
    const solid = plateSolid(kernel, plainPlate({ outline: disc(30), thickness: 3 }));
    const at = frameFacing([100, 20, 5], [1, 0, 0], [0, 1, 0]);
    const bodies = [{ solid }, { solid, name: 'second', at }];
    const found = await readWithOther(writeStep(kernel, bodies, { schema: 'AP214', assembly: 'header' }));
    expect(found.map(({ volume }) => Math.round(volume))).toEqual([8482, 8482]);
    solid.dispose();
  });
});

test('two bars of 42.4 crossing square: 16 r^3 / 3 in common (Steinmetz), by a boolean of our kernel', () => {
  const { makeCylinder } = kernel.replicad;
  const across = makeCylinder(21.2, 100, [-50, 0, 0], [1, 0, 0]).wrapped;
  const upright = makeCylinder(21.2, 100, [0, 0, -50], [0, 0, 1]).wrapped;
  const solid = prove(kernel, common(kernel, across, upright), {
    part: 'crossing',
    volume: 50816.6827,
    volumeFrom: '16 r^3 / 3',
    cure: 'none',
  });
  expect(solid.volume / 50816.6827).toBeCloseTo(1, 6);
  solid.dispose();
});
