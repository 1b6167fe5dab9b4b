import type { TopoDS_Shape } from 'replicad-opencascadejs';
import type { Kernel } from './kernel.js';
import { withScratch } from './scratch.js';

/** Volume of a shape, mm^3, by Gauss integration over its faces. Negative where it is inside out. */
export const volumeOf = (kernel: Kernel, shape: TopoDS_Shape): number =>
  withScratch((keep) => {
    const { oc } = kernel;
    const mass = keep(new oc.GProp_GProps());
    oc.BRepGProp.VolumeProperties(shape, mass, false, false, false);
    return mass.Mass();
  });

/** Whether the kernel's own checker finds a shape sound: faces closed, edges on their faces, no crossings. */
export const isSound = (kernel: Kernel, shape: TopoDS_Shape): boolean =>
  withScratch((keep) => keep(new kernel.oc.BRepCheck_Analyzer(shape, true, false, false)).IsValid());

/** The solids, faces or edges of a shape. The caller gives each back to the kernel's memory. */
export function piecesOf(
  kernel: Kernel,
  shape: TopoDS_Shape,
  kind: 'solid' | 'face' | 'edge',
): TopoDS_Shape[] {
  const { TopAbs_ShapeEnum: kinds, TopExp_Explorer } = kernel.oc;
  return withScratch((keep) => {
    const wanted = { solid: kinds.TopAbs_SOLID, face: kinds.TopAbs_FACE, edge: kinds.TopAbs_EDGE }[kind];
    const walk = keep(new TopExp_Explorer(shape, wanted, kinds.TopAbs_SHAPE));
    const found: TopoDS_Shape[] = [];
    for (; walk.More(); walk.Next()) found.push(walk.Current());
    return found;
  });
}
