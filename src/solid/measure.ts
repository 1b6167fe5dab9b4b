import type { TopoDS_Shape } from 'replicad-opencascadejs';
import { type Kernel } from './kernel.js';
import { withScratch } from './scratch.js';
import { type Box } from './solid.js';

/** Volume of a shape, mm^3, by Gauss integration over its faces. Negative where it is inside out. */
export const volumeOf = (kernel: Kernel, shape: TopoDS_Shape): number =>
  withScratch((keep) => {
    const { oc } = kernel;
    const mass = keep(new oc.GProp_GProps());
    oc.BRepGProp.VolumeProperties(shape, mass, false, false, false);
    return mass.Mass();
  });

/** The upright box that just holds a shape (mm), from the true surfaces. */
export const boundsOfShape = (kernel: Kernel, shape: TopoDS_Shape): Box =>
  withScratch((keep) => {
    const { oc } = kernel;
    const box = keep(new oc.Bnd_Box());
    oc.BRepBndLib.AddOptimal(shape, box, false, false);
    return {
      low: [box.GetXMin(), box.GetYMin(), box.GetZMin()],
      high: [box.GetXMax(), box.GetYMax(), box.GetZMax()],
    };
  });

/** Whether the kernel's own checker finds a shape sound: faces closed, edges on their faces, no crossings. */
export const isSound = (kernel: Kernel, shape: TopoDS_Shape): boolean =>
  withScratch((keep) => keep(new kernel.oc.BRepCheck_Analyzer(shape, true, false, false)).IsValid());

/** The solids, or the faces, of a shape. The caller gives each back to the kernel's memory. */
export function piecesOf(kernel: Kernel, shape: TopoDS_Shape, kind: 'solid' | 'face'): TopoDS_Shape[] {
  const { TopAbs_ShapeEnum: kinds, TopExp_Explorer } = kernel.oc;
  return withScratch((keep) => {
    const wanted = kind === 'solid' ? kinds.TopAbs_SOLID : kinds.TopAbs_FACE;
    const walk = keep(new TopExp_Explorer(shape, wanted, kinds.TopAbs_SHAPE));
    const found: TopoDS_Shape[] = [];
    for (; walk.More(); walk.Next()) found.push(walk.Current());
    return found;
  });
}
