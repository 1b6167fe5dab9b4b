import type { BRepAdaptor_Surface, Bnd_Box, TopoDS_Shape } from 'replicad-opencascadejs';
import { tolerance } from '../base/tolerance.js';
import {
  add,
  cross3,
  direction,
  distance3,
  dot3,
  length3,
  scale,
  squareTo,
  subtract,
  type Vector,
} from '../base/vectors.js';
import type { Kernel } from './kernel.js';
import { piecesOf } from './measure.js';
import { withScratch } from './scratch.js';
import type { Box } from './solid.js';

/**
 * The upright box that just holds a shape (mm). The kernel's own goes by the square of parameters that a face
 * is cut from, which a saddle fills only in part. But planes, cylinders and cones reach their farthest on
 * their edges; a torus may reach farther in one place for each way, if the face has it. Other faces are rare
 * here, and taken as the kernel has them.
 */
export function boundsOfShape(kernel: Kernel, shape: TopoDS_Shape): Box {
  const { oc } = kernel;
  return withScratch((keep) => {
    const box = keep(new oc.Bnd_Box());
    for (const edge of piecesOf(kernel, shape, 'edge'))
      oc.BRepBndLib.AddOptimal(keep(edge), box, false, false);
    for (const face of piecesOf(kernel, shape, 'face')) addFace(kernel, box, keep(face));
    return boxOf(box);
  });
}

const boxOf = (box: Bnd_Box): Box => ({
  low: [box.GetXMin(), box.GetYMin(), box.GetZMin()],
  high: [box.GetXMax(), box.GetYMax(), box.GetZMax()],
});

function addFace(kernel: Kernel, box: Bnd_Box, face: TopoDS_Shape): void {
  const { oc } = kernel;
  const { GeomAbs_SurfaceType: kinds } = oc;
  withScratch((keep) => {
    const surface = keep(new oc.BRepAdaptor_Surface(keep(oc.TopoDS.Face(face)), true));
    const kind = surface.GetType();
    if (kind === kinds.GeomAbs_Plane || kind === kinds.GeomAbs_Cylinder || kind === kinds.GeomAbs_Cone)
      return;
    if (kind !== kinds.GeomAbs_Torus) {
      oc.BRepBndLib.AddOptimal(face, box, false, false);
      return;
    }
    for (const [x, y, z] of farthestOnTorus(surface)) {
      const { low, high } = boxOf(box);
      const inside =
        x >= low[0] && y >= low[1] && z >= low[2] && x <= high[0] && y <= high[1] && z <= high[2];
      if (!inside && isOnFace(kernel, face, [x, y, z])) box.Update(x, y, z);
    }
  });
}

/** Where a whole torus reaches farthest to the right, left, up, down, out and in: C + R u + r d. */
function farthestOnTorus(surface: BRepAdaptor_Surface): Vector[] {
  const at = (u: number, v: number): Vector =>
    withScratch((keep) => {
      const place = keep(surface.Value(u, v));
      return [place.X(), place.Y(), place.Z()];
    });
  const [far, opposite] = [at(0, 0), at(Math.PI, 0)];
  const centre = scale(add(far, opposite), 1 / 2);
  const across = distance3(at(0, Math.PI), far);
  const [large, small] = [distance3(far, centre) - across / 2, across / 2];
  const axis = direction(cross3(subtract(far, centre), subtract(at(Math.PI / 2, 0), centre)));
  const ways: Vector[] = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];
  return ways
    .flatMap((way) => [way, scale(way, -1)])
    .filter(
      (way) => Math.abs(dot3(way, axis)) < 1 - tolerance.sameDirection && length3(squareTo(way, axis)) > 0,
    )
    .map((way) => add(centre, add(scale(direction(squareTo(way, axis)), large), scale(way, small))));
}

const isOnFace = ({ oc }: Kernel, face: TopoDS_Shape, place: Vector): boolean =>
  withScratch((keep) => {
    const point = keep(new oc.BRepBuilderAPI_MakeVertex(keep(new oc.gp_Pnt(...place))));
    const gap = keep(new oc.BRepExtrema_DistShapeShape(keep(point.Vertex()), face));
    return gap.IsDone() && gap.Value() < tolerance.samePoint;
  });
