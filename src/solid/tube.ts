import type { TopoDS_Edge, TopoDS_Face, TopoDS_Shape, TopoDS_Wire } from 'replicad-opencascadejs';
import { tidy } from '../base/numbers.js';
import { Refusal } from '../base/problems.js';
import { tolerance } from '../base/tolerance.js';
import {
  cross3,
  direction,
  distance3,
  length3,
  subtract,
  turnedAbout,
  type Vector,
} from '../base/vectors.js';
import { attempt } from './attempt.js';
import type { Kernel } from './kernel.js';
import { prove } from './prove.js';
import { withScratch } from './scratch.js';
import { requireSizes } from './sizes.js';
import type { Solid } from './solid.js';

/** A piece of a tube's centre line, mm and rad; the pieces of geom's centre lines are such. */
export type TubePiece =
  | { readonly kind: 'straight'; readonly from: Vector; readonly to: Vector }
  | {
      readonly kind: 'bend';
      readonly from: Vector;
      readonly to: Vector;
      readonly centre: Vector;
      /** Unit axis that the flow turns about, right hand. */
      readonly axis: Vector;
      readonly clr: number;
      readonly angle: number;
    };

export interface TubeSpec {
  readonly name: string;
  readonly pieces: readonly TubePiece[];
  readonly od: number;
  /** Wall thickness, mm; undefined for a full bar. */
  readonly wall: number | undefined;
}

/**
 * A tube along straights and bends, of true cylinders and tori. By Pappus' theorem its volume is
 * pi (R^2 - r^2) x length of the centre line, bends and straights alike.
 * @returns the solid, proved against that volume.
 * @throws Refusal `solid/size`, `solid/kinked-tube`, `solid/kernel`, or what prove() finds.
 */
export function tubeSolid(kernel: Kernel, { name, pieces, od, wall }: TubeSpec): Solid {
  const line = pieces.filter((piece) => distance3(piece.from, piece.to) > tolerance.samePoint);
  const length = line.reduce((sum, piece) => sum + lengthOf(piece), 0);
  requireSizes(name, [
    { what: 'outside diameter', value: od },
    { what: 'length', value: length },
    ...(wall === undefined ? [] : [{ what: 'wall', value: wall, below: od / 2 }]),
    ...line.flatMap((piece, i) =>
      piece.kind === 'bend'
        ? [
            // Tighter than this the inside of the bend folds over.
            { what: `CLR of piece ${i + 1}`, value: piece.clr, above: od / 2 },
            { what: `angle (rad) of piece ${i + 1}`, value: piece.angle, below: 2 * Math.PI },
          ]
        : [],
    ),
  ]);
  requireSmooth(name, line);
  const work = {
    part: name,
    doing: 'bending the tube',
    sizes: `${tidy(od)} mm outside, wall ${wall === undefined ? 'full' : tidy(wall)} mm, ${line.length} pieces, ${tidy(length, 1)} mm`,
    cure: 'see that every bend starts where the piece before it ends, in the same direction; use a larger CLR',
  };
  const outer = od / 2;
  const inner = wall === undefined ? 0 : outer - wall;
  const shape = attempt(kernel, work, () => pipe(kernel, line, outer, inner));
  return attempt(kernel, work, () =>
    prove(kernel, shape, {
      part: name,
      volume: Math.PI * (outer * outer - inner * inner) * length,
      volumeFrom: 'section x length of the centre line (Pappus)',
      cure: work.cure,
    }),
  );
}

const lengthOf = (piece: TubePiece): number =>
  piece.kind === 'straight' ? distance3(piece.from, piece.to) : piece.clr * piece.angle;

/** Direction of the flow at the start or the end of a piece. */
const flowAt = (piece: TubePiece, end: 'from' | 'to'): Vector =>
  piece.kind === 'straight'
    ? direction(subtract(piece.to, piece.from))
    : direction(cross3(piece.axis, subtract(piece[end], piece.centre)));

/** The pieces must follow on one another without a gap or a kink, and a bend must be where its figures say. */
function requireSmooth(name: string, line: readonly TubePiece[]): void {
  line.forEach((piece, i) => {
    const before = line[i - 1];
    const gap = before ? distance3(before.to, piece.from) : 0;
    const kink = before ? length3(cross3(flowAt(before, 'to'), flowAt(piece, 'from'))) : 0;
    const stray = piece.kind === 'bend' ? strayOf(piece) : 0;
    if (gap <= tolerance.kernelPoint && kink <= tolerance.sameDirection && stray <= tolerance.kernelPoint)
      return;
    throw new Refusal([
      {
        code: 'solid/kinked-tube',
        severity: 'error',
        what: `${name}, piece ${i + 1}: gap ${tidy(gap, 6)} mm, kink ${tidy(kink, 6)} rad, end off its arc by ${tidy(stray, 6)} mm; all must be 0`,
        why: 'a tube is bent smoothly: a kink is two tubes with a weld between',
        fix: 'march the pieces one after another, each from the end and direction of the one before',
      },
    ]);
  });
}

/** How far a bend's end lies from where its start, turned about its axis, comes to. */
function strayOf({ from, to, centre, axis, angle, clr }: Extract<TubePiece, { kind: 'bend' }>): number {
  const arm = subtract(from, centre);
  const end = turnedAbout(arm, axis, angle);
  return Math.max(distance3(end, subtract(to, centre)), Math.abs(length3(arm) - clr));
}

/**
 * A ring swept along the line: never a sweep of faces one by one, never fused neighbours, which fail silently.
 * @param seam the side on which the faces begin and end, square to the flow at the start
 */
export function pipe(
  kernel: Kernel,
  line: readonly TubePiece[],
  outer: number,
  inner: number,
  seam?: Vector,
): TopoDS_Shape {
  const { oc } = kernel;
  const [first] = line;
  if (!first) throw new Error('a tube needs a piece');
  return withScratch((keep) => {
    const spine = keep(
      wireOf(
        kernel,
        line.map((piece) => keep(edgeOf(kernel, piece))),
      ),
    );
    const face = keep(ring(kernel, first.from, flowAt(first, 'from'), outer, inner, seam));
    return keep(new oc.BRepOffsetAPI_MakePipe(spine, face)).Shape();
  });
}

function edgeOf({ oc }: Kernel, piece: TubePiece): TopoDS_Edge {
  return withScratch((keep) => {
    const a = keep(new oc.gp_Pnt(...piece.from));
    const b = keep(new oc.gp_Pnt(...piece.to));
    if (piece.kind === 'straight') return keep(new oc.BRepBuilderAPI_MakeEdge(a, b)).Edge();
    const centre = keep(new oc.gp_Pnt(...piece.centre));
    const arm = keep(new oc.gp_Dir(...subtract(piece.from, piece.centre)));
    const axes = keep(new oc.gp_Ax2(centre, keep(new oc.gp_Dir(...piece.axis)), arm));
    return keep(new oc.BRepBuilderAPI_MakeEdge(keep(new oc.gp_Circ(axes, piece.clr)), a, b)).Edge();
  });
}

const wireOf = ({ oc }: Kernel, edges: readonly TopoDS_Edge[]): TopoDS_Wire =>
  withScratch((keep) => {
    const chain = keep(new oc.BRepBuilderAPI_MakeWire());
    for (const edge of edges) chain.Add(edge);
    return chain.Wire();
  });

/** The section of a tube: a disc, or a ring whose inner edge runs the other way round. */
function ring(
  kernel: Kernel,
  at: Vector,
  along: Vector,
  outer: number,
  inner: number,
  seam: Vector | undefined,
): TopoDS_Face {
  const { oc } = kernel;
  return withScratch((keep) => {
    const [place, way] = [keep(new oc.gp_Pnt(...at)), keep(new oc.gp_Dir(...along))];
    const axes = keep(
      seam ? new oc.gp_Ax2(place, way, keep(new oc.gp_Dir(...seam))) : new oc.gp_Ax2(place, way),
    );
    const circle = (radius: number): TopoDS_Wire => {
      const edge = keep(new oc.BRepBuilderAPI_MakeEdge(keep(new oc.gp_Circ(axes, radius)))).Edge();
      return keep(wireOf(kernel, [keep(edge)]));
    };
    const maker = keep(new oc.BRepBuilderAPI_MakeFace(circle(outer), true));
    if (inner > 0) maker.Add(keep(oc.TopoDS.Wire(keep(circle(inner).Reversed()))));
    return maker.Face();
  });
}
