import type { TopoDS_Shape } from 'replicad-opencascadejs';
import { tolerance } from '../base/tolerance.js';
import { dot3, type Vector } from '../base/vectors.js';
import type { CradlePart } from '../design/parts.js';
import type { Kernel } from './kernel.js';
import { piecesOf } from './measure.js';
import { measureOf } from './prove.js';
import { awayFromTube, distanceToTube, type Saddle } from './saddle.js';
import { withScratch } from './scratch.js';
import type { Measure } from './solid.js';

/** Places looked at along each edge of the seat, and each way over its face. */
const LOOKS = 9;

/**
 * Measures the seat on the finished solid. Its face is one cylinder or torus; at 81 places of it, more than
 * either needs to be known by, the gap to the tube is the clearance, so it is so all over. And the way out is
 * up: away from the tube its edges look down or level, at the lips as everywhere; the block ends there, so
 * nothing stands over the tube.
 */
export function saddleMeasures(
  kernel: Kernel,
  shape: TopoDS_Shape,
  { od, clearance }: CradlePart,
  saddle: Saddle,
): Measure[] {
  const seats = piecesOf(kernel, shape, 'face').flatMap((face) => seatOf(kernel, face, saddle) ?? []);
  const gaps = seats.flatMap(({ face }) => face.map((place) => distanceToTube(saddle, place) - od / 2));
  const edges = seats.flatMap(({ edges }) => edges);
  const strays = edges.map((place) => Math.abs(distanceToTube(saddle, place) - saddle.radius));
  const leans = edges.map((place) => Math.max(0, awayFromTube(saddle, place)[2]) * saddle.radius);
  return [
    { ...measureOf('faces of the seat', 1, seats.length, 'mm', 0), unit: 'count' },
    measureOf('least gap between seat and tube', clearance, Math.min(...gaps), 'mm', tolerance.samePoint),
    measureOf('greatest gap between seat and tube', clearance, Math.max(...gaps), 'mm', tolerance.samePoint),
    measureOf('edges of the seat off its surface', 0, Math.max(...strays), 'mm', tolerance.file),
    measureOf('lips leaning in over the tube', 0, Math.max(...leans), 'mm', tolerance.file),
  ];
}

/** Places on a face of the seat, and along its edges. */
interface Seat {
  readonly face: readonly Vector[];
  readonly edges: readonly Vector[];
}

/** The places of a face, if it is of the seat. */
function seatOf(kernel: Kernel, face: TopoDS_Shape, saddle: Saddle): Seat | undefined {
  const { oc } = kernel;
  return withScratch((keep) => {
    const surface = keep(new oc.BRepAdaptor_Surface(keep(oc.TopoDS.Face(keep(face))), true));
    const kind = surface.GetType();
    const torus = kind === oc.GeomAbs_SurfaceType.GeomAbs_Torus;
    if (!torus) {
      if (kind !== oc.GeomAbs_SurfaceType.GeomAbs_Cylinder) return undefined;
      // Screw holes and the ends of letters are cylinders too, but small, or across the tube.
      const cylinder = keep(surface.Cylinder());
      const axis = vectorOf(keep(keep(cylinder.Axis()).Direction()));
      if (Math.abs(dot3(axis, saddle.along)) < Math.SQRT1_2) return undefined;
      if (cylinder.Radius() < saddle.radius / 2) return undefined;
    }
    const [u, v] = [
      steps(surface.FirstUParameter(), surface.LastUParameter()),
      steps(surface.FirstVParameter(), surface.LastVParameter()),
    ];
    const places = u.flatMap((s) => v.map((t) => vectorOf(keep(surface.Value(s, t)))));
    return { face: places, edges: edgePlaces(kernel, face) };
  });
}

function edgePlaces(kernel: Kernel, face: TopoDS_Shape): Vector[] {
  const { oc } = kernel;
  return piecesOf(kernel, face, 'edge').flatMap((edge) =>
    withScratch((keep) => {
      const curve = keep(new oc.BRepAdaptor_Curve(keep(oc.TopoDS.Edge(keep(edge)))));
      return steps(curve.FirstParameter(), curve.LastParameter()).map((t) => vectorOf(keep(curve.Value(t))));
    }),
  );
}

const steps = (from: number, to: number): number[] =>
  Array.from({ length: LOOKS }, (_, i) => from + ((to - from) * i) / (LOOKS - 1));

const vectorOf = (at: { X(): number; Y(): number; Z(): number }): Vector => [at.X(), at.Y(), at.Z()];
