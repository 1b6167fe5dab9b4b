import { beforeAll, describe, expect, it } from 'vitest';
import { randomFrom } from '../../src/base/random.js';
import { meshDistance } from '../../src/geom/mesh-distance.js';
import { openEdgesOf } from '../../src/geom/triangles.js';
import { meshOfStep, openKernel, type Kernel } from '../../src/solid/index.js';
import { toBody, type V } from '../support/plain-march.js';
import { stepOf } from '../support/step-bodies.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await openKernel();
});

describe('a STEP file as triangles', () => {
  const cylinder = { from: [-40, 10, 20], to: [120, 50, 60], diameter: 70 } as const;
  const box = { from: [-200, -80, -40], to: [-90, 20, 90] } as const;

  it('of a cylinder and a box: closed, and nowhere further off than it states, against their formulas', async () => {
    const { triangles, standOff } = meshOfStep(
      kernel,
      await stepOf(kernel, [{ cylinder }, { box }]),
      'a.step',
    );
    expect(openEdgesOf(triangles)).toBe(0);
    expect(standOff).toBe(0.2);
    const { signed } = meshDistance(triangles, true);
    const random = randomFrom(91);
    let worst = 0;
    for (let i = 0; i < 4000; i++) {
      const p: V = [random.between(-260, 180), random.between(-120, 120), random.between(-90, 150)];
      const truth = Math.min(toBody({ cylinder }, p), toBody({ box }, p));
      worst = Math.max(worst, Math.abs(signed(...p) - truth));
    }
    expect(worst).toBeLessThan(standOff);
    // The kernel did make chords, or nothing was shown.
    expect(worst).toBeGreaterThan(0.01);
  });

  it('of a ball: the same', async () => {
    const capsule = { from: [10, 20, 30], to: [10, 20, 30.001], diameter: 180 } as const;
    const ball = await stepOf(kernel, [{ ball: { at: [10, 20, 30], diameter: 180 } }]);
    const { triangles, standOff } = meshOfStep(kernel, ball, 'ball.step');
    expect(openEdgesOf(triangles)).toBe(0);
    const { signed } = meshDistance(triangles, true);
    const random = randomFrom(92);
    for (let i = 0; i < 2000; i++) {
      const p: V = [random.between(-120, 140), random.between(-110, 150), random.between(-100, 160)];
      expect(Math.abs(signed(...p) - toBody({ capsule }, p))).toBeLessThan(standOff);
    }
  });
});
