import { describe, expect, it } from 'vitest';
import { randomFrom } from '../../src/base/random.js';
import { isError } from '../../src/base/problems.js';
import { designFlanges } from '../../src/design/flange/flange.js';
import type { PlatePart } from '../../src/design/parts.js';
import { measurePlate, plateDrawing, writeDxf } from '../../src/files/index.js';
import { jobFrom } from '../../src/job/index.js';
import { openKernel, plateSolid } from '../../src/solid/index.js';
import { randomFlange } from '../support/random-flange.js';

/** Plates of seeded random flanges that the design lets through, until there are enough of them. */
function plates(seed: number, enough: number): { parts: PlatePart[]; refused: number } {
  const random = randomFrom(seed);
  const parts: PlatePart[] = [];
  let refused = 0;
  while (parts.length < enough) {
    const job = jobFrom({ job: 'random', ...randomFlange(random) });
    const made = job.value === undefined ? undefined : designFlanges(job.value);
    if (job.problems.some(isError) || made?.value === undefined) refused++;
    else parts.push(...made.value.map((each) => each.part));
  }
  return { parts, refused };
}

describe('two hundred random flanges', () => {
  const { parts, refused } = plates(2026, 200);

  it('most of what the shop might ask for can be made', () => {
    expect(parts.length).toBeGreaterThanOrEqual(200);
    expect(refused).toBeLessThan(parts.length / 2);
  });

  it('the DXF read back by dxf-parser passes every measure: closed, no crossing, webs, holes, sizes', async () => {
    for (const part of parts) {
      const measures = await measurePlate(writeDxf(plateDrawing(part)), part);
      expect(
        measures.filter((measure) => !measure.ok),
        part.name,
      ).toEqual([]);
      const web = measures.find((measure) => measure.what === 'least web');
      // 5 mm was asked of every one of them.
      expect(web?.measured).toBeGreaterThanOrEqual(5 - 1e-4);
    }
  });

  it('area left in the DXF x thickness - drilled holes - pockets = volume of the solid within 1e-5, and every solid is valid', async () => {
    const kernel = await openKernel();
    for (const part of parts) {
      const measures = await measurePlate(writeDxf(plateDrawing(part)), part);
      const area = Number(measures.find((measure) => measure.what === 'area left after cutting')?.measured);
      const solid = plateSolid(kernel, part);
      const drilled = part.holes
        .filter((hole) => hole.made === 'drilled')
        .reduce((sum, hole) => sum + (Math.PI / 4) * hole.diameter ** 2 * part.thickness, 0);
      if (part.pockets.length === 0)
        expect(Math.abs((area * part.thickness - drilled) / solid.volume - 1), part.name).toBeLessThan(1e-5);
      expect(solid.measures.filter((measure) => !measure.ok)).toEqual([]);
      solid.dispose();
    }
  });
});
