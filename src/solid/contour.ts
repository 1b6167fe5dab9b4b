import type { TopoDS_Edge, TopoDS_Face, TopoDS_Wire } from 'replicad-opencascadejs';
import { cosSin, tidy } from '../base/numbers.js';
import { distance, dot, middle, minus, plus, type Point, size, times, turned, unit } from '../base/points.js';
import { Refusal } from '../base/problems.js';
import { tolerance } from '../base/tolerance.js';
import { areaOfCurves, gapOf } from '../geom/loops.js';
import type { Arc, Curve, CurveLoop, EllipseArc } from '../geom/segments.js';
import type { Kernel } from './kernel.js';
import { withScratch } from './scratch.js';

const FULL = 2 * Math.PI;

/**
 * A closed contour as a kernel wire at a height, counter-clockwise seen from above. Lines, arcs and pieces
 * of ellipses stay exact edges; a circle or an ellipse given in pieces becomes one edge, so that a hole is
 * read back as one cylinder.
 * @throws Refusal `solid/open-contour`.
 */
export function wireOf(kernel: Kernel, loop: CurveLoop, height: number, name: string): TopoDS_Wire {
  const gap = gapOf(loop);
  if (loop.length === 0 || !(gap <= tolerance.samePoint)) throw openContour(name, gap);
  return withScratch((keep) => {
    const chain = keep(new kernel.oc.BRepBuilderAPI_MakeWire());
    const whole = wholeTurn(loop);
    const edges = whole ? [roundEdge(kernel, whole, height)] : edgesOf(kernel, loop, height);
    for (const edge of edges) chain.Add(keep(edge));
    const wire = chain.Wire();
    if (whole || areaOfCurves(loop) > 0) return wire;
    return kernel.oc.TopoDS.Wire(keep(keep(wire).Reversed()));
  });
}

/** The metal between an outer contour and its holes, facing up. All contours counter-clockwise, at one height. */
export function faceOf(
  kernel: Kernel,
  outer: TopoDS_Wire,
  holes: readonly TopoDS_Wire[],
  height: number,
): TopoDS_Face {
  const { oc } = kernel;
  return withScratch((keep) => {
    const plane = keep(new oc.gp_Pln(keep(new oc.gp_Pnt(0, 0, height)), keep(new oc.gp_Dir(0, 0, 1))));
    const maker = keep(new oc.BRepBuilderAPI_MakeFace(plane, outer, true));
    // A hole runs the other way round than the outside.
    for (const hole of holes) maker.Add(keep(oc.TopoDS.Wire(keep(hole.Reversed()))));
    return maker.Face();
  });
}

function edgesOf(kernel: Kernel, loop: CurveLoop, height: number): TopoDS_Edge[] {
  const pieces = loop.filter((piece) => !isNothing(piece));
  return pieces.map((piece, i) => {
    const previous = pieces[(i + pieces.length - 1) % pieces.length] ?? piece;
    const next = pieces[(i + 1) % pieces.length] ?? piece;
    return edgeOf(kernel, piece, jointOf(previous, piece), jointOf(piece, next), height);
  });
}

/** Too short for the kernel to see as an edge. */
const isNothing = (piece: Curve): boolean =>
  distance(piece.from, piece.to) <= tolerance.samePoint &&
  (piece.kind === 'line' || Math.abs(piece.sweep) < 1);

/** Where two pieces meet: an ellipse cannot give way, so its own end is the joint. */
const jointOf = (before: Curve, after: Curve): Point =>
  after.kind === 'ellipse'
    ? ellipsePoint(after, after.start)
    : before.kind === 'ellipse'
      ? ellipsePoint(before, before.start + before.sweep)
      : after.from;

const ellipsePoint = (e: EllipseArc, t: number): Point => {
  const [c, s] = cosSin(t);
  return plus(e.centre, turned([e.major * c, e.minor * s], e.turn));
};

/** The circle or ellipse that a contour is, where it is nothing else. */
function wholeTurn(loop: CurveLoop): Arc | EllipseArc | undefined {
  const [first] = loop;
  if (!first || first.kind === 'line') return undefined;
  let sweep = 0;
  for (const piece of loop) {
    if (piece.kind !== first.kind || distance(piece.centre, first.centre) > tolerance.samePoint)
      return undefined;
    const [a, b] = axesOf(piece);
    const [firstA, firstB] = axesOf(first);
    if (Math.abs(a - firstA) > tolerance.samePoint || Math.abs(b - firstB) > tolerance.samePoint)
      return undefined;
    sweep += piece.sweep;
  }
  return Math.abs(Math.abs(sweep) - FULL) < tolerance.sameDirection ? first : undefined;
}

const axesOf = (piece: Arc | EllipseArc): readonly [number, number] =>
  piece.kind === 'arc' ? [piece.radius, piece.radius] : [piece.major, piece.minor];

function edgeOf(kernel: Kernel, piece: Curve, from: Point, to: Point, height: number): TopoDS_Edge {
  const { oc } = kernel;
  return withScratch((keep) => {
    const a = keep(new oc.gp_Pnt(from[0], from[1], height));
    const b = keep(new oc.gp_Pnt(to[0], to[1], height));
    if (piece.kind === 'line') return keep(new oc.BRepBuilderAPI_MakeEdge(a, b)).Edge();
    const up = piece.sweep > 0 ? 1 : -1;
    if (piece.kind === 'arc') {
      const [centre, radius] = seated(piece, from, to);
      const axes = keep(axesAt(kernel, centre, height, up, [1, 0]));
      return keep(new oc.BRepBuilderAPI_MakeEdge(keep(new oc.gp_Circ(axes, radius)), a, b)).Edge();
    }
    // Travelled clockwise, the ellipse is looked at from below, and its parameter runs the other way.
    const axes = keep(axesAt(kernel, piece.centre, height, up, turned([1, 0], piece.turn)));
    const ellipse = keep(new oc.gp_Elips(axes, piece.major, piece.minor));
    const start = up * piece.start;
    return keep(new oc.BRepBuilderAPI_MakeEdge(ellipse, start, start + Math.abs(piece.sweep))).Edge();
  });
}

function roundEdge(kernel: Kernel, round: Arc | EllipseArc, height: number): TopoDS_Edge {
  const { oc } = kernel;
  return withScratch((keep) => {
    const along = round.kind === 'arc' ? 0 : round.turn;
    const axes = keep(axesAt(kernel, round.centre, height, 1, turned([1, 0], along)));
    return round.kind === 'arc'
      ? keep(new oc.BRepBuilderAPI_MakeEdge(keep(new oc.gp_Circ(axes, round.radius)))).Edge()
      : keep(new oc.BRepBuilderAPI_MakeEdge(keep(new oc.gp_Elips(axes, round.major, round.minor)))).Edge();
  });
}

const axesAt = (
  { oc }: Kernel,
  at: Point,
  height: number,
  up: 1 | -1,
  along: Point,
): InstanceType<Kernel['oc']['gp_Ax2']> =>
  withScratch((keep) => {
    const origin = keep(new oc.gp_Pnt(at[0], at[1], height));
    const normal = keep(new oc.gp_Dir(0, 0, up));
    return new oc.gp_Ax2(origin, normal, keep(new oc.gp_Dir(along[0], along[1], 0)));
  });

/**
 * The arc moved by less than the same-point tolerance so that it passes through both its joints, as the
 * kernel wants: the centre goes to the nearest place on the middle square of the chord.
 */
function seated(arc: Arc, from: Point, to: Point): readonly [Point, number] {
  const chord = minus(to, from);
  const off = distance(from, arc.centre) - arc.radius;
  const away = distance(to, arc.centre) - arc.radius;
  if (Math.max(Math.abs(off), Math.abs(away)) < tolerance.kernelPoint / 2) return [arc.centre, arc.radius];
  const half = middle(from, to);
  const along = unit(chord);
  const centre = minus(arc.centre, times(along, dot(minus(arc.centre, half), along)));
  return [centre, size(minus(from, centre))];
}

const openContour = (name: string, gap: number): Refusal =>
  new Refusal([
    {
      code: 'solid/open-contour',
      severity: 'error',
      what: `${name}: the contour has a gap of ${tidy(gap, 6)} mm; at most ${tolerance.samePoint} mm is closed`,
      why: 'an open contour encloses no metal: the table would cut a slit, not a part',
      fix: 'close the contour: let each piece start where the one before it ends',
    },
  ]);
