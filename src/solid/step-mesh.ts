import type { Kernel } from './kernel.js';
import { meshOf } from './mesh.js';
import { openStep } from './step-read.js';

/** What the kernel is asked to keep its triangles within of the surface, mm, and along an edge, rad. */
const ASKED = { deflection: 0.1, turn: 0.5 } as const;

/** What is stated: twice what was asked of the kernel, which takes its figure as a wish (see the tests), mm. */
const STAND_OFF = 0.2;

/** The solids of a STEP file as triangles: nine coordinates each, mm, whatever the file's own unit. */
export interface StepMesh {
  readonly triangles: Float64Array;
  /** No triangle lies further from the true surface, nor any of that from the triangles, mm. */
  readonly standOff: number;
}

/**
 * Meshes every solid of a STEP file, each proved closed.
 * @throws Refusal solid/step-read, solid/mesh, solid/kernel
 */
export function meshOfStep(kernel: Kernel, bytes: Uint8Array, fileName: string): StepMesh {
  const skins = openStep(kernel, bytes, fileName).map((solid) => {
    const { positions, triangles } = meshOf(kernel, solid, ASKED);
    solid.dispose();
    const skin = new Float64Array(3 * triangles.length);
    triangles.forEach((corner, i) => skin.set(positions.subarray(3 * corner, 3 * corner + 3), 3 * i));
    return skin;
  });
  const whole = new Float64Array(skins.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const skin of skins) {
    whole.set(skin, at);
    at += skin.length;
  }
  return { triangles: whole, standOff: STAND_OFF };
}
