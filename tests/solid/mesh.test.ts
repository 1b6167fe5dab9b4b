import { beforeAll, describe, expect, test } from 'vitest';
import { meshOf, openKernel, plateSolid, tubeSolid, type Kernel, type Solid } from '../../src/solid/index.js';
import { solidOf, shapeOf } from '../../src/solid/solid.js';
import { volumeByManifold } from '../support/manifold.js';
import { disc, flangePlate, plainPlate } from '../support/plates.js';

let kernel: Kernel;
const made: Record<string, Solid> = {};
beforeAll(async () => {
  kernel = await openKernel();
  made.flange = plateSolid(kernel, flangePlate());
  made.disc = plateSolid(kernel, plainPlate({ outline: disc(30), thickness: 4 }));
  made.tube = tubeSolid(kernel, {
    name: 'tube',
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
  });
});
const solid = (name: string): Solid => {
  const found = made[name];
  if (!found) throw new Error(name);
  return found;
};

describe('a mesh closes, and an independent mesh kernel finds the volume of the solid less the chords', () => {
  test.each([
    ['flange', 0.9999],
    ['disc', 0.995],
    ['tube', 0.99],
  ])('%s', async (name, least) => {
    const mesh = meshOf(kernel, solid(name));
    const volume = await volumeByManifold(mesh);
    expect(volume / solid(name).volume).toBeGreaterThan(least);
    expect(volume / solid(name).volume).toBeLessThan(1.004);
  });
});

test('round a disc, the chords stand off by the deflection asked at most: r (1 - cos(step / 2))', () => {
  for (const deflection of [0.2, 0.02]) {
    const { positions } = meshOf(kernel, solid('disc'), { deflection, turn: 1 });
    const angles: number[] = [];
    for (let i = 0; i < positions.length; i += 3) {
      const [x = 0, y = 0, z = 0] = positions.subarray(i, i + 3);
      if (z !== 0) continue;
      expect(Math.hypot(x, y)).toBeCloseTo(30, 4);
      angles.push(Math.atan2(y, x));
    }
    angles.sort((a, b) => a - b);
    const steps = angles.map((angle, i) => (angles[i + 1] ?? (angles[0] ?? 0) + 2 * Math.PI) - angle);
    const off = 30 * (1 - Math.cos(Math.max(...steps) / 2));
    expect(off).toBeLessThan(deflection * 1.01);
    expect(off).toBeGreaterThan(deflection / 20);
  }
});

test('a coarser mesh after a finer one is coarser: none is kept inside the solid', () => {
  const count = (deflection: number): number =>
    meshOf(kernel, solid('tube'), { deflection, turn: 1 }).triangles.length;
  const fine = count(0.01);
  expect(count(0.5)).toBeLessThan(fine / 4);
  expect(count(0.01)).toBe(fine);
});

test('a solid that says it weighs more than its mesh holds is refused', () => {
  const { name, bounds, measures } = solid('disc');
  const shape = shapeOf(solid('disc'));
  const liar = solidOf(shape, { name, bounds, measures, volume: solid('disc').volume * 1.2 });
  expect(() => meshOf(kernel, liar)).toThrow(/solid\/mesh/);
});

test('a box without its sole is refused for its open edges, though its volume comes out right', () => {
  const { oc, replicad } = kernel;
  const sewing = new oc.BRepBuilderAPI_Sewing(1e-6, true, true, true, false);
  for (const face of replicad.makeBox([0, 0, 0], [10, 20, 30]).faces) {
    if (Math.abs(face.center.z) > 1e-9) sewing.Add(face.wrapped);
  }
  sewing.Perform(new oc.Message_ProgressRange());
  const bounds = { low: [0, 0, 0], high: [10, 20, 30] } as const;
  const open = solidOf(sewing.SewedShape(), { name: 'box', volume: 6000, bounds, measures: [] });
  expect(() => meshOf(kernel, open)).toThrow(/4 open edges and holds 6000 mm3 of 6000/);
});

test.each([0, Number.NaN])('a deflection of %d is refused', (deflection) => {
  expect(() => meshOf(kernel, solid('disc'), { deflection })).toThrow(/solid\/size/);
});
