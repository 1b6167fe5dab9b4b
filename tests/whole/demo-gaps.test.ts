import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { parse } from 'yaml';
import { checkJob } from '../../src/build/check-job.js';
import { meshOf, openKernel, tubeSolid, type Mesh } from '../../src/solid/index.js';
import { boxMesh, gapByManifold } from '../support/manifold.js';

/*
 * The demo's primaries as solids of the CAD kernel, their gaps measured by a mesh kernel that knows nothing of
 * centre lines: what the router says is clear must be clear between the skins.
 */
type V = readonly [number, number, number];
interface Demo {
  readonly keep_outs: readonly {
    readonly name: string;
    readonly clear: number;
    readonly head_of?: readonly string[];
    readonly box?: { readonly from: V; readonly to: V };
  }[];
  readonly clear: { readonly tube_to_tube: number; readonly near_slots: number };
}

/** Chords of the meshes lie up to this inside the true skin, mm. */
const DEFLECTION = 0.15;
/** How far (mm) past what is asked gaps are looked for: the mesh kernel's time grows with it. */
const PAST = 2;

it("gaps between the demo's tubes, and to its boxes, by solids: as asked, and the starter as near as told", async () => {
  const file = 'fixtures/hillclimb-four/job.yaml';
  const demo = parse(readFileSync(file, 'utf8')) as Demo;
  const { designed, standings } = await checkJob({ file, shown: file, set: [], only: undefined });
  const kernel = await openKernel();
  const tubes: { id: string; mesh: Mesh }[] = [];
  for (const part of designed?.parts ?? []) {
    if (part.kind !== 'tube') continue;
    const solid = tubeSolid(kernel, part);
    tubes.push({
      id: part.name.replace('primary-', ''),
      mesh: meshOf(kernel, solid, { deflection: DEFLECTION }),
    });
    solid.dispose();
  }
  expect(tubes.map(({ id }) => id)).toEqual(['P1', 'P2', 'P3', 'P4']);
  const least = Math.min(demo.clear.tube_to_tube, demo.clear.near_slots);
  for (const [i, a] of tubes.entries())
    for (const b of tubes.slice(i + 1)) {
      const gap = await gapByManifold(a.mesh, b.mesh, least + PAST);
      expect(gap, `${a.id} to ${b.id}`).toBeGreaterThan(least - DEFLECTION);
    }
  let told = 0;
  for (const { name, clear, box, head_of } of demo.keep_outs) {
    if (box === undefined || head_of !== undefined) continue;
    const body = await boxMesh(box.from, box.to);
    for (const { id, mesh } of tubes) {
      const gap = await gapByManifold(mesh, body, clear + PAST);
      expect(gap, `${id} to ${name}`).toBeGreaterThan(clear - DEFLECTION);
      const nearest = standings.find((standing) => standing.id === id)?.nearest;
      if (nearest?.to !== name || nearest.spare > PAST) continue;
      told++;
      expect(gap - clear - nearest.spare, `${id} to ${name}`).toBeGreaterThan(-DEFLECTION);
      expect(gap - clear - nearest.spare, `${id} to ${name}`).toBeLessThan(2 * DEFLECTION);
    }
  }
  // Of the demo's four at least one comes nearest to a box.
  expect(told).toBeGreaterThan(0);
}, 120_000);
