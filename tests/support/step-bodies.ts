import type { Kernel } from '../../src/solid/index.js';
import { dot, plus, type V } from './plain-march.js';

/** A body to be written as STEP by the kernel's own writer. */
export type StepBody =
  | { readonly box: { readonly from: V; readonly to: V } }
  | { readonly cylinder: { readonly from: V; readonly to: V; readonly diameter: number } }
  | { readonly ball: { readonly at: V; readonly diameter: number } };

/** Bodies as one STEP file, in mm. */
export async function stepOf({ replicad }: Kernel, bodies: readonly StepBody[]): Promise<Uint8Array> {
  const shapes = bodies.map((body) => {
    if ('box' in body) return replicad.makeBox([...body.box.from], [...body.box.to]);
    if ('ball' in body) return replicad.makeSphere(body.ball.diameter / 2).translate([...body.ball.at]);
    const { from, to, diameter } = body.cylinder;
    const axis = plus(to, from, -1);
    return replicad.makeCylinder(diameter / 2, Math.sqrt(dot(axis, axis)), [...from], [...axis]);
  });
  const blob = replicad.exportSTEP(shapes.map((shape, i) => ({ shape, name: `body ${i}` })));
  return new Uint8Array(await blob.arrayBuffer());
}
