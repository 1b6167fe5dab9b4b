import type { TopoDS_Shape, TopoDS_Wire } from 'replicad-opencascadejs';
import { faceOf } from './contour.js';
import type { Kernel } from './kernel.js';
import { withScratch } from './scratch.js';

/** A flat shape with holes made thick: from its own height (mm) upward. */
export function extruded(
  kernel: Kernel,
  outer: TopoDS_Wire,
  holes: readonly TopoDS_Wire[],
  from: number,
  height: number,
): TopoDS_Shape {
  const { oc } = kernel;
  return withScratch((keep) => {
    const face = keep(faceOf(kernel, outer, holes, from));
    return keep(new oc.BRepPrimAPI_MakePrism(face, keep(new oc.gp_Vec(0, 0, height)), false, true)).Shape();
  });
}
