import type { TopoDS_Shape } from 'replicad-opencascadejs';
import type { Kernel } from './kernel.js';
import { withScratch } from './scratch.js';

type Kind = 'BRepAlgoAPI_Cut' | 'BRepAlgoAPI_Fuse' | 'BRepAlgoAPI_Common';

/** A shape with the tools taken out of it, all in one go. */
export const cutAway = (kernel: Kernel, body: TopoDS_Shape, tools: readonly TopoDS_Shape[]): TopoDS_Shape =>
  boolean(kernel, 'BRepAlgoAPI_Cut', [body], tools);

/** Shapes joined into one; faces that carry on in one another become one face. */
export const joined = (kernel: Kernel, [first, ...others]: readonly TopoDS_Shape[]): TopoDS_Shape => {
  if (!first) throw new Error('nothing to join');
  return boolean(kernel, 'BRepAlgoAPI_Fuse', [first], others, true);
};

/** What two shapes have in common. */
export const common = (kernel: Kernel, one: TopoDS_Shape, other: TopoDS_Shape): TopoDS_Shape =>
  boolean(kernel, 'BRepAlgoAPI_Common', [one], [other]);

/**
 * One boolean over many shapes. The algorithm is made empty and built once (the constructor that takes
 * shapes builds them a first time). It may fail without a word: what comes out must still be proved.
 */
function boolean(
  { oc }: Kernel,
  kind: Kind,
  bodies: readonly TopoDS_Shape[],
  tools: readonly TopoDS_Shape[],
  simplify = false,
): TopoDS_Shape {
  return withScratch((keep) => {
    const work = keep(new oc[kind]());
    const list = (shapes: readonly TopoDS_Shape[]): InstanceType<typeof oc.NCollection_List_TopoDS_Shape> => {
      const made = keep(new oc.NCollection_List_TopoDS_Shape());
      for (const shape of shapes) made.Append(shape);
      return made;
    };
    work.SetArguments(list(bodies));
    work.SetTools(list(tools));
    work.Build(keep(new oc.Message_ProgressRange()));
    if (!work.IsDone() || work.HasErrors()) throw new Error('the shapes could not be cut or joined');
    if (simplify) work.SimplifyResult(true, true, 1e-3);
    return work.Shape();
  });
}
