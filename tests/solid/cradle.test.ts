import { beforeAll, describe, expect, test } from 'vitest';
import { radians } from '../../src/base/numbers.js';
import { Refusal } from '../../src/base/problems.js';
import { randomFrom } from '../../src/base/random.js';
import { cradleFaults, saddleSpan } from '../../src/design/cradle-limits.js';
import { letter } from '../../src/design/lettering.js';
import type { CradlePart } from '../../src/design/parts.js';
import {
  cradleSolid,
  meshOf,
  openKernel,
  writeStep,
  type Kernel,
  type Solid,
} from '../../src/solid/index.js';
import { cradleBody } from '../../src/solid/cradle-body.js';
import { distanceToTube, saddleOf } from '../../src/solid/saddle.js';
import { saddleMeasures } from '../../src/solid/saddle-measure.js';
import { seatVolume } from '../../src/solid/saddle-volume.js';
import { shapeOf } from '../../src/solid/solid.js';
import { trialCradle } from '../support/cradles.js';
import { clashByManifold, volumeByManifold } from '../support/manifold.js';
import { tubeIn } from '../support/tube-in-cradle.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await openKernel();
});

const plain = (over: Partial<CradlePart> = {}): Solid => cradleSolid(kernel, trialCradle(over), []);

const refusalOf = (over: Partial<CradlePart>): string => {
  try {
    plain(over).dispose();
  } catch (error) {
    if (error instanceof Refusal) return error.problems.map(({ code, what }) => `${code} ${what}`).join('; ');
    throw error;
  }
  return '';
};

const onBend = { bend: { clr: 63.6, clock: radians(70) }, clearance: 0.6, tilt: radians(10) };
const POSES: readonly (readonly [string, Partial<CradlePart>])[] = [
  ['level straight', {}],
  ['straight rising 25 degrees, reach 180', { tilt: radians(25), embrace: Math.PI }],
  ['bend turning up and aside', onBend],
  ['bend turning down, reach 180', { bend: { clr: 63.6, clock: Math.PI }, embrace: Math.PI }],
];

describe('volume', () => {
  test('level straight: block + tabs - segment of a circle - slot - two holes, worked by hand', () => {
    const part = trialCradle();
    const [R, e] = [21.5, radians(170)];
    const block = 20 * 55 * (60 - R * Math.cos(e / 2));
    const segment = (R * R * (e - Math.sin(e))) / 2;
    const asked = block + 2 * 15 * 20 * 6 - 20 * segment - 13 * 3 * 55 - 2 * Math.PI * 2.25 ** 2 * 6;
    expect(part.halfBreadth).toBe(27.5);
    expect(plain().volume).toBeCloseTo(asked, 5);
  });

  test.each(POSES)('%s: an independent mesh kernel weighs a fine mesh the same', async (_, over) => {
    const solid = plain(over);
    const fine = await volumeByManifold(meshOf(kernel, solid, { deflection: 0.005, turn: 0.05 }));
    // Chords cut into the seat's hollow from the metal's side: the mesh has a little more.
    expect(fine / solid.volume - 1).toBeGreaterThan(-1e-5);
    expect(fine / solid.volume - 1).toBeLessThan(2e-4);
    solid.dispose();
  });

  test('a bend of CLR 100 m takes out what a straight does', () => {
    const straight = trialCradle({ tilt: 0.3 });
    const bent = trialCradle({ tilt: 0.3, bend: { clr: 1e5, clock: 1 } });
    const [a, b] = [straight, bent].map((part) => seatVolume(saddleOf(part), part.width, part.embrace));
    expect((b ?? 0) / (a ?? 1)).toBeCloseTo(1, 3);
  });
});

describe('fit: the tube in its seat', () => {
  test.each(POSES)(
    '%s: the kernel finds the clearance between the two solids, within 0.0001 mm',
    (_, over) => {
      const part = trialCradle(over);
      const solid = cradleSolid(kernel, part, []);
      const tube = tubeIn(kernel, part);
      const gap = new kernel.oc.BRepExtrema_DistShapeShape(shapeOf(solid), shapeOf(tube));
      expect(gap.Value()).toBeCloseTo(part.clearance, 4);
      gap.delete();
      solid.dispose();
      tube.dispose();
    },
  );

  test.each(POSES)('%s: the seat has that gap all round, as far as it was asked to reach', (_, over) => {
    const part = trialCradle(over);
    const saddle = saddleOf(part);
    const solid = cradleSolid(kernel, part, []);
    const { positions } = meshOf(kernel, solid, { deflection: 0.02, turn: 0.05 });
    solid.dispose();
    let [right, left] = [0, 0];
    for (let i = 0; i < positions.length; i += 3) {
      const [x = 0, y = 0, z = 0] = positions.subarray(i, i + 3);
      const gap = distanceToTube(saddle, [x, y, z]) - part.od / 2;
      expect(gap).toBeGreaterThan(part.clearance - 1e-4);
      // Near the station, the angle round the tube from straight below.
      if (gap > part.clearance + 1e-4 || Math.abs(x) > part.width / 2 + 1) continue;
      const round = Math.asin(Math.min(1, Math.abs(y) / saddle.radius));
      if (y > 0) left = Math.max(left, round);
      else right = Math.max(right, round);
    }
    expect(left).toBeGreaterThan(part.embrace / 2 - radians(4));
    expect(right).toBeGreaterThan(part.embrace / 2 - radians(4));
  });

  test.each(POSES)('%s: lifted straight up, the tube touches nothing on its way out', async (_, over) => {
    const part = trialCradle(over);
    const solid = cradleSolid(kernel, part, []);
    const tube = tubeIn(kernel, part);
    const [cradle, bar] = [solid, tube].map((one) => meshOf(kernel, one, { deflection: 0.02, turn: 0.05 }));
    solid.dispose();
    tube.dispose();
    if (!cradle || !bar) throw new Error('two meshes');
    for (const lift of [0, 0.2, 1, 3, 8, 15, 22, 40]) {
      expect(await clashByManifold(cradle, bar, [0, 0, lift])).toBe(0);
    }
    // And down it does touch: the check can fail.
    expect(await clashByManifold(cradle, bar, [0, 0, -1])).toBeGreaterThan(10);
  });

  test('the proof sees a seat with another gap, and lips that close over the tube', () => {
    const part = trialCradle({ embrace: Math.PI });
    const saddle = saddleOf(part);
    const good = cradleBody(kernel, part, saddle, []);
    const wrong = (measures: ReturnType<typeof saddleMeasures>): string[] =>
      measures.filter(({ ok }) => !ok).map(({ what }) => what);
    expect(wrong(saddleMeasures(kernel, good, part, saddle))).toEqual([]);
    expect(wrong(saddleMeasures(kernel, good, { ...part, clearance: 0.31 }, saddle))).toEqual([
      'least gap between seat and tube',
      'greatest gap between seat and tube',
    ]);
    const edge = saddle.top.left;
    const raised = {
      ...edge,
      from: [edge.from[0], edge.from[1] + 3],
      to: [edge.to[0], edge.to[1] + 3],
    } as typeof edge;
    const closing = { ...saddle, top: { left: raised, right: raised } };
    const shut = cradleBody(kernel, part, closing, []);
    expect(wrong(saddleMeasures(kernel, shut, part, closing))).toEqual(['lips leaning in over the tube']);
    good.delete();
    shut.delete();
  });
});

test.each(POSES)(
  '%s: prints on its foot: what overhangs is the sole, the bridge over the strap and the letters',
  (_, over) => {
    const part = trialCradle(over);
    const solid = cradleSolid(kernel, part, letter(part.engraving.text, part.engraving.height));
    const { positions, triangles } = meshOf(kernel, solid);
    solid.dispose();
    const at = (i: number): number[] => [
      ...positions.subarray(3 * (triangles[i] ?? 0), 3 * (triangles[i] ?? 0) + 3),
    ];
    const roof = (part.strap?.floor ?? 0) + (part.strap?.depth ?? 0);
    let bridged = 0;
    for (let i = 0; i < triangles.length; i += 3) {
      const corners = [at(i), at(i + 1), at(i + 2)];
      const [a = [], b = [], c = []] = corners;
      const [u, v] = [b, c].map((p) => p.map((x, k) => x - (a[k] ?? 0)));
      const cross = (p: number, q: number): number =>
        (u?.[p] ?? 0) * (v?.[q] ?? 0) - (u?.[q] ?? 0) * (v?.[p] ?? 0);
      const normal = [cross(1, 2), cross(2, 0), cross(0, 1)];
      const area = Math.hypot(...normal) / 2;
      // Steeper than 45 degrees from upright, facing down.
      if ((normal[2] ?? 0) / (2 * area) > -Math.SQRT1_2) continue;
      const isSole = corners.every(([, , z]) => z === 0);
      const isRoof = corners.every(([, , z]) => Math.abs((z ?? 0) - roof) < 1e-4);
      const isLetter = corners.every(([x]) => (x ?? 0) <= -part.width / 2 + part.engraving.depth + 1e-4);
      expect(isSole || isRoof || isLetter).toBe(true);
      if (isRoof) bridged += area;
    }
    expect(bridged).toBeCloseTo(13 * 2 * part.halfBreadth, 2);
  },
);

describe('lettering', () => {
  test('reads from left to right, looking downstream: an L has its upright on the left, which is +y', () => {
    const part = trialCradle();
    const solid = cradleSolid(kernel, part, letter('L', 6));
    const { positions } = meshOf(kernel, solid);
    const floor: number[][] = [];
    for (let i = 0; i < positions.length; i += 3) {
      const [x = 0, y = 0, z = 0] = positions.subarray(i, i + 3);
      if (Math.abs(x - (-part.width / 2 + part.engraving.depth)) < 1e-4) floor.push([y, z]);
    }
    const highest = Math.max(...floor.map(([, z]) => z ?? 0));
    expect(highest - Math.min(...floor.map(([, z]) => z ?? 0))).toBeCloseTo(6.6, 3);
    for (const [y, z] of floor) if (highest - (z ?? 0) < 1) expect(y).toBeGreaterThan(1);
    solid.dispose();
  });

  test('a groove is as wide as a tenth of the height and as deep as asked: volume of one stroke', () => {
    const part = trialCradle({ engraving: { text: '', depth: 0.8, height: 6 } });
    const solid = cradleSolid(kernel, part, [
      [
        [0, 0],
        [0, 6],
      ],
    ]);
    const asked = (6 * 0.6 + Math.PI * 0.3 ** 2) * 0.8;
    expect(plain().volume - solid.volume).toBeCloseTo(asked, 4);
    solid.dispose();
  });
});

describe('limits', () => {
  test.each([
    ['tilt 46 degrees', { tilt: radians(46) }, 'the climb of the tube is 46 deg; its limit is 45 deg'],
    [
      'reach 200 degrees',
      { embrace: radians(200) },
      'the reach round the tube is 200 deg; its limit is 180 deg',
    ],
    ['too low over the base', { height: 30 }, 'the plastic under the saddle is -0.5 mm; its limit is 0 mm'],
    [
      'a strap as wide as the block',
      { strap: { width: 20, depth: 3, floor: 6 } },
      "the strap's width is 20 mm",
    ],
  ] as const)('%s', (_, over, words) => {
    expect(refusalOf(over)).toContain(`solid/cradle-limits cradle-P1-1: ${words}`);
  });

  test('a bend so tight and aslant that the tube wanders out of the block aside', () => {
    const over = {
      bend: { clr: 42.4, clock: Math.PI / 2 },
      tilt: -0.56,
      width: 30,
      height: 75,
      strap: undefined,
    };
    expect(refusalOf(over)).toContain('solid/cradle-limits cradle-P1-1: over 30 mm of a bend of CLR 42.4');
  });

  test.each([
    ['od', Number.NaN],
    ['width', 0],
    ['height', Number.POSITIVE_INFINITY],
    ['clearance', -1],
  ])('%s %d', (key, value) => {
    expect(refusalOf({ [key]: value, halfBreadth: 30 })).toMatch(/^solid\/size/);
  });
});

test('12 random poses within the limits: each is proved, and stands within the room its design allows it', () => {
  const random = randomFrom(5);
  let made = 0;
  while (made < 12) {
    const part = trialCradle({
      tilt: random.chance(0.3) ? 0 : random.between(-0.75, 0.75),
      bend: random.chance(0.75)
        ? { clr: random.pick([50, 63.6, 84.8, 127]), clock: random.between(0, 6.28) }
        : undefined,
      embrace: random.pick([Math.PI, radians(170), random.between(1.2, 3.1)]),
      height: random.between(58, 90),
    });
    if (cradleFaults(part, 4).length > 0) continue;
    const refused = refusalOf(part);
    if (refused.includes('the tube wanders out')) continue;
    expect(refused).toBe('');
    const solid = cradleSolid(kernel, part, []);
    expect(solid.bounds.high[2]).toBeLessThan(saddleSpan(part).highest + 0.2);
    solid.dispose();
    made++;
  }
});

test('the same cradle twice gives the same STEP bytes', () => {
  const bytes = [0, 1].map(() => {
    const part = trialCradle(onBend);
    const solid = cradleSolid(kernel, part, letter(part.engraving.text, part.engraving.height));
    const file = writeStep(kernel, [{ solid }]);
    solid.dispose();
    return file;
  });
  expect(Buffer.compare(bytes[0] ?? Buffer.of(), bytes[1] ?? Buffer.of())).toBe(0);
});
