import type { TopoDS_Shape } from 'replicad-opencascadejs';
import { tolerance } from '../base/tolerance.js';
import { add, cross3, dot3, length3, scale, subtract, type Vector } from '../base/vectors.js';
import type { Kernel } from './kernel.js';
import { piecesOf } from './measure.js';
import { withScratch } from './scratch.js';

/** A round hole found on a solid: a cylinder with the metal outside it, all the way round. */
export interface RoundHoleFound {
  readonly diameter: number;
  /** Unit direction; up (out, else up, else right) where a hole has no top and bottom of its own. */
  readonly axis: Vector;
  /** On the axis, at the lower end of the hole. */
  readonly at: Vector;
  /** Along the axis. */
  readonly depth: number;
}

/** One cylindrical face with the metal outside it. */
interface Wall {
  readonly radius: number;
  readonly axis: Vector;
  /** A place on the axis. */
  readonly on: Vector;
  /** Share of the way round, rad. */
  readonly round: number;
  /** Its reach along the axis from `on`. */
  readonly from: number;
  readonly to: number;
}

/** The round holes of a shape, largest first. Part-round walls (rounded corners, slot ends) are left out. */
export function roundHolesOf(kernel: Kernel, shape: TopoDS_Shape): RoundHoleFound[] {
  const groups: Wall[][] = [];
  for (const face of piecesOf(kernel, shape, 'face')) {
    const wall = wallOf(kernel, face);
    if (!wall) continue;
    const mates = groups.find(([first]) => first && isSameBore(first, wall));
    if (mates) mates.push(wall);
    else groups.push([wall]);
  }
  const holes = groups.flatMap((walls) => holeOf(walls) ?? []);
  return holes.sort((a, b) => b.diameter - a.diameter || compare(a.at, b.at));
}

/** The cylinder under a face, if the metal lies outside it. Takes the face over. */
function wallOf({ oc }: Kernel, face: TopoDS_Shape): Wall | undefined {
  return withScratch((keep) => {
    const surface = keep(new oc.BRepAdaptor_Surface(keep(oc.TopoDS.Face(keep(face))), true));
    if (surface.GetType() !== oc.GeomAbs_SurfaceType.GeomAbs_Cylinder) return undefined;
    const cylinder = keep(surface.Cylinder());
    // A face's own side is outward from the axis; turned round, the metal is outside.
    const turned = face.Orientation() === oc.TopAbs_Orientation.TopAbs_REVERSED;
    if (turned !== cylinder.Direct()) return undefined;
    const line = keep(cylinder.Axis());
    const [way, place] = [keep(line.Direction()), keep(line.Location())];
    const sign = isUp([way.X(), way.Y(), way.Z()]) ? 1 : -1;
    const ends = [sign * surface.FirstVParameter(), sign * surface.LastVParameter()];
    return {
      radius: cylinder.Radius(),
      axis: scale([way.X(), way.Y(), way.Z()], sign),
      on: [place.X(), place.Y(), place.Z()],
      round: surface.LastUParameter() - surface.FirstUParameter(),
      from: Math.min(...ends),
      to: Math.max(...ends),
    };
  });
}

const isUp = ([right, up, out]: Vector): boolean => {
  if (Math.abs(out) > tolerance.sameDirection) return out > 0;
  return Math.abs(up) > tolerance.sameDirection ? up > 0 : right > 0;
};

const isSameBore = (a: Wall, b: Wall): boolean =>
  Math.abs(a.radius - b.radius) < tolerance.file &&
  length3(cross3(a.axis, b.axis)) < tolerance.file &&
  length3(cross3(a.axis, subtract(b.on, a.on))) < tolerance.file;

function holeOf(walls: readonly Wall[]): RoundHoleFound | undefined {
  const [first] = walls;
  const round = walls.reduce((sum, wall) => sum + wall.round, 0);
  if (!first || round < 2 * Math.PI - tolerance.file) return undefined;
  const reach = walls.map((wall) => {
    const shift = dot3(subtract(wall.on, first.on), first.axis);
    return [wall.from + shift, wall.to + shift] as const;
  });
  const from = Math.min(...reach.map(([low]) => low));
  const to = Math.max(...reach.map(([, high]) => high));
  return {
    diameter: 2 * first.radius,
    axis: first.axis,
    at: add(first.on, scale(first.axis, from)),
    depth: to - from,
  };
}

const compare = (a: Vector, b: Vector): number => a[0] - b[0] || a[1] - b[1] || a[2] - b[2];
