import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { checkJob } from '../../src/build/check-job.js';
import { letter } from '../../src/design/lettering.js';
import { cradleSolid, meshOf, openKernel, plateSolid, tubeSolid, writeStep } from '../../src/solid/index.js';
import { volumeByManifold } from '../support/manifold.js';
import { readWithOther } from '../support/other-kernel.js';

const demo = 'fixtures/hillclimb-four/job.yaml';
const byHand = 'fixtures/by-hand-four/job.yaml';

it('every solid of the demo: STEP read by OCCT 7.6 is one valid solid of the same volume (1e-6), and manifold-3d weighs its mesh alike', async () => {
  expect(readFileSync(demo, 'utf8')).toContain('hillclimb-four');
  const partsOf = async (file: string, only?: string[]) =>
    (await checkJob({ file, shown: file, set: [], only })).designed?.parts ?? [];
  // Cradles by hand stand on bends as well.
  const parts = [...(await partsOf(demo)), ...(await partsOf(byHand, ['cradle']))];
  expect(parts.length).toBeGreaterThanOrEqual(15);
  const kernel = await openKernel();
  for (const part of parts) {
    const solid =
      part.kind === 'plate'
        ? plateSolid(kernel, part)
        : part.kind === 'tube'
          ? tubeSolid(kernel, part)
          : cradleSolid(kernel, part, letter(part.engraving.text, part.engraving.height));
    const read = await readWithOther(writeStep(kernel, [{ solid }]));
    expect(read, part.name).toHaveLength(1);
    expect(read[0]?.valid, part.name).toBe(true);
    expect(Math.abs((read[0]?.volume ?? NaN) / solid.volume - 1), part.name).toBeLessThan(1e-6);
    // A tube weighs as its thin wall alone, so the chords must lie close.
    const weighed = await volumeByManifold(meshOf(kernel, solid, { deflection: 0.02 }));
    expect(Math.abs(weighed / solid.volume - 1), part.name).toBeLessThan(1e-3);
    solid.dispose();
  }
}, 240_000);
