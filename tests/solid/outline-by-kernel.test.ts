import { expect, test } from 'vitest';
import { randomFrom } from '../../src/base/random.js';
import { areaOf, perimeterOf } from '../../src/geom/loops.js';
import { plateOutline } from '../../src/geom/outline.js';
import { openKernel } from '../../src/solid/index.js';
import { outlineByKernel } from '../support/outline-by-kernel.js';
import { trialPads } from '../support/trial-pads.js';

test("30 invented flanges: area and length of the exact outline against the CAD kernel's own offset and union", async () => {
  const kernel = await openKernel();
  const random = randomFrom(11);
  for (let i = 0; i < 30; i++) {
    const pads = trialPads(random, false);
    const fillet = random.between(5, 12);
    const exact = plateOutline(pads, fillet);
    const found = outlineByKernel(kernel, pads, fillet);
    expect(found).toHaveLength(exact.pieces);
    expect(found[0]?.area ?? 0).toBeCloseTo(areaOf(exact.outline), 3);
    expect(found[0]?.perimeter ?? 0).toBeCloseTo(perimeterOf(exact.outline), 3);
  }
});
