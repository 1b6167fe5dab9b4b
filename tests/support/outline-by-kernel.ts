import type { TopoDS_Face, TopoDS_Shape, TopoDS_Wire } from 'replicad-opencascadejs';
import type { Loop } from '../../src/geom/segments.js';
import { joined } from '../../src/solid/boolean.js';
import { faceOf, wireOf } from '../../src/solid/contour.js';
import type { Kernel } from '../../src/solid/index.js';

/** One piece of an outline as the CAD kernel has it. */
export interface KernelOutline {
  /** Pockets filled, mm^2. */
  readonly area: number;
  /** Length of the cut round it, mm. */
  readonly perimeter: number;
}

/**
 * The outline of a plate made of pads, by the CAD kernel's own offset and union: each pad grown by the fillet,
 * all joined, the outside of what comes out moved back in. The largest piece first. It shares no line with the
 * exact outline but its rule.
 */
export function outlineByKernel(kernel: Kernel, pads: readonly Loop[], fillet: number): KernelOutline[] {
  const { oc } = kernel;
  const face = (wire: TopoDS_Wire): TopoDS_Face => faceOf(kernel, wire, [], 0);
  const offset = (wire: TopoDS_Wire, by: number): TopoDS_Wire[] => {
    const maker = new oc.BRepOffsetAPI_MakeOffset(face(wire), oc.GeomAbs_JoinType.GeomAbs_Arc, false);
    maker.Perform(by, 0);
    return wiresOf(kernel, maker.Shape());
  };
  const grown = pads.flatMap((pad) => offset(wireOf(kernel, pad, 0, 'pad'), fillet));
  const whole = joined(kernel, grown.map(face));
  return kernel.replicad
    .cast(whole)
    .faces.flatMap((piece) => offset(oc.BRepTools.OuterWire(piece.wrapped), -fillet))
    .map((wire) => measured(kernel, wire, face(wire)))
    .sort((a, b) => b.area - a.area);
}

function wiresOf({ oc }: Kernel, shape: TopoDS_Shape): TopoDS_Wire[] {
  const { TopAbs_WIRE, TopAbs_SHAPE } = oc.TopAbs_ShapeEnum;
  const found: TopoDS_Wire[] = [];
  const walk = new oc.TopExp_Explorer(shape, TopAbs_WIRE, TopAbs_SHAPE);
  for (; walk.More(); walk.Next()) found.push(oc.TopoDS.Wire(walk.Current()));
  walk.delete();
  return found;
}

function measured({ oc }: Kernel, wire: TopoDS_Wire, face: TopoDS_Face): KernelOutline {
  const [length, area] = [new oc.GProp_GProps(), new oc.GProp_GProps()];
  oc.BRepGProp.LinearProperties(wire, length, false, false);
  oc.BRepGProp.SurfaceProperties(face, area, false, false);
  return { area: Math.abs(area.Mass()), perimeter: length.Mass() };
}
