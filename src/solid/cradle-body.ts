import type { TopoDS_Shape } from 'replicad-opencascadejs';
import type { Frame } from '../base/frames.js';
import type { Point } from '../base/points.js';
import {
  add,
  cross3,
  direction,
  scale,
  squareTo,
  subtract,
  turnedAbout,
  type Vector,
} from '../base/vectors.js';
import { tolerance } from '../base/tolerance.js';
import type { CradlePart } from '../design/parts.js';
import { line, pointAt } from '../geom/arcs.js';
import { circleLoop } from '../geom/loops.js';
import type { Loop, Region, Segment } from '../geom/segments.js';
import { cutAway } from './boolean.js';
import { boundsOfShape } from './bounds.js';
import { wireOf } from './contour.js';
import { extruded } from './extrude.js';
import { separate } from './grooves.js';
import type { Kernel } from './kernel.js';
import { piecesOf } from './measure.js';
import { locationOf } from './place.js';
import { highestOf, type Saddle } from './saddle.js';
import { withScratch } from './scratch.js';
import { pipe } from './tube.js';

/** What a seat's mouth must open to either side of the middle, on a bend, mm. */
export const MOUTH = 2;

/** How far a cutting tool stands out of what it cuts, so that no two faces lie in one another, mm. */
const PROUD = 1;

/**
 * The cradle, before it is proved: one profile, seen along the tube, drawn out over the width; then the seat,
 * the slope of the top, the strap's slot and the screw holes cut in one go; then the lettering.
 */
export function cradleBody(kernel: Kernel, part: CradlePart, saddle: Saddle, grooves: Region): TopoDS_Shape {
  return withScratch((keep) => {
    const tools = [...topTools(kernel, part, saddle), ...slotTool(kernel, part), ...screwTools(kernel, part)];
    const block = keep(blockOf(kernel, part, saddle));
    const shaped = tools.length > 0 ? keep(cutAway(kernel, block, tools.map(keep))) : block;
    const cut = standingPiece(kernel, cutAway(kernel, shaped, [keep(seatTool(kernel, saddle))]));
    if (grooves.length === 0) return cut;
    return cutAway(kernel, keep(cut), grooveTools(kernel, part, grooves).map(keep));
  });
}

/**
 * The piece that stands on the foot. The kernel parts block and plug rightly, but on some bends it takes the
 * plug for metal and leaves it lying in the seat.
 */
function standingPiece(kernel: Kernel, cut: TopoDS_Shape): TopoDS_Shape {
  const pieces = piecesOf(kernel, cut, 'solid');
  const standing = pieces.find((piece) => boundsOfShape(kernel, piece).low[2] < tolerance.file);
  for (const piece of pieces) if (piece !== standing) piece.delete();
  if (!standing) return cut;
  cut.delete();
  return standing;
}

/** The block on its foot, as high as its highest edge. */
function blockOf(kernel: Kernel, part: CradlePart, saddle: Saddle): TopoDS_Shape {
  const { width, halfBreadth, foot } = part;
  const high = highestOf(saddle, width) + (isLevel(saddle) ? 0 : 2 * PROUD);
  const [inside, outside] = [halfBreadth, halfBreadth + foot.tab];
  const tab: Point[] = [
    [outside, 0],
    [outside, foot.thickness],
    [inside, foot.thickness],
  ];
  const half: Point[] = [...(foot.tab > 0 ? tab : [[inside, 0] as const]), [inside, high]];
  const profile = [...half, ...half.map(([y, z]): Point => [-y, z]).reverse()];
  return standing(kernel, closed(profile), alongTube(-width / 2), width);
}

const UP: Vector = [0, 0, 1];

/** Farther round a bend (rad) the tube would come back over the block. */
const FARTHEST = 1.5;

/** The tube with its clearance, its seam on top, as far as the seat reaches and a little more. */
function seatTool(kernel: Kernel, { at, along, bend, radius, reach }: Saddle): TopoDS_Shape {
  // On a tube that leans, more of it is in the block than its seat.
  const half = Math.min(reach + radius / 2 + PROUD, bend ? FARTHEST * bend.clr : Infinity);
  if (!bend) {
    const [from, to] = [subtract(at, scale(along, half)), add(at, scale(along, half))];
    return pipe(kernel, [{ kind: 'straight', from, to }], radius, 0, squareTo(UP, along));
  }
  const { centre, axis, clr } = bend;
  const turn = half / clr;
  const arm = subtract(at, centre);
  const [from, to] = [-turn, turn].map((angle) => add(centre, turnedAbout(arm, axis, angle)));
  if (!from || !to) throw new Error('a bend has two ends');
  const seam = squareTo(UP, direction(cross3(axis, subtract(from, centre))));
  return pipe(kernel, [{ kind: 'bend', from, to, centre, axis, clr, angle: 2 * turn }], radius, 0, seam);
}

/** Whether the block drawn out to its height needs no cut above. */
const isLevel = ({ top: { left, right } }: Saddle): boolean =>
  left === right && left.kind === 'line' && left.from[1] === left.to[1];

/**
 * What stands over the top of the block. On a straight one plane. On a bend a cut on each side, which stop
 * short of one another within the mouth, where the tube has taken the metal away; and over both a plane that
 * rises with the tube, low enough for the tube to break through it.
 */
function topTools(kernel: Kernel, { width, halfBreadth }: CradlePart, saddle: Saddle): TopoDS_Shape[] {
  if (isLevel(saddle)) return [];
  const { top, along } = saddle;
  const above = highestOf(saddle, width) + 4 * PROUD;
  const over = (edge: Segment, y: number, length: number): TopoDS_Shape => {
    const { from, to } = edge;
    const [after, before]: [Point, Point] = [
      [to[0], above],
      [from[0], above],
    ];
    const profile = [edge, line(to, after), line(after, before), line(before, from)];
    return standing(kernel, profile, acrossTube(y), length);
  };
  const wide = halfBreadth + PROUD;
  if (top.left === top.right) return [over(top.left, wide, 2 * wide)];
  const slope = along[2] / along[0];
  const rises = Math.max(highestOver(top.left, slope), highestOver(top.right, slope)) + PROUD;
  const out = width / 2 + 2 * PROUD;
  const roof = line([-out, rises - out * slope], [out, rises + out * slope]);
  const inner = MOUTH / 2;
  return [
    over(top.left, wide, wide - inner),
    over(top.right, -inner, wide - inner),
    over(roof, wide, 2 * wide),
  ];
}

/** The highest that an edge comes above a line of a slope through the origin. */
const highestOver = (edge: Segment, slope: number): number =>
  Math.max(...[0, 0.25, 0.5, 0.75, 1].map((t) => pointAt(edge, t)).map(([x, z]) => z - x * slope));

function slotTool(kernel: Kernel, { strap, halfBreadth }: CradlePart): TopoDS_Shape[] {
  if (!strap) return [];
  const half = strap.width / 2;
  const [low, high] = [strap.floor, strap.floor + strap.depth];
  const profile: Point[] = [
    [-half, low],
    [half, low],
    [half, high],
    [-half, high],
  ];
  return [standing(kernel, closed(profile), acrossTube(halfBreadth), 2 * halfBreadth)];
}

function screwTools(kernel: Kernel, { foot, halfBreadth }: CradlePart): TopoDS_Shape[] {
  if (foot.tab <= 0) return [];
  return [1, -1].map((side) => {
    const hole = circleLoop([0, side * (halfBreadth + foot.tab / 2)], foot.hole / 2);
    return prism(kernel, hole, [], -PROUD, foot.thickness + 2 * PROUD);
  });
}

/** Lettering is read looking downstream, on the face at -x. */
function grooveTools(kernel: Kernel, { width, engraving }: CradlePart, grooves: Region): TopoDS_Shape[] {
  const face: Frame = { origin: [-width / 2, 0, 0], right: [0, -1, 0], up: [0, 0, 1], out: [-1, 0, 0] };
  return separate(grooves).map(({ outer, islands }) =>
    withScratch((keep) => {
      const tool = keep(prism(kernel, outer, islands, -engraving.depth, engraving.depth + PROUD));
      return tool.Moved(keep(locationOf(kernel, face)), false);
    }),
  );
}

/** A frame whose drawing shows y to the right and z up, and whose thickness runs along +x. */
const alongTube = (x: number): Frame => ({
  origin: [x, 0, 0],
  right: [0, 1, 0],
  up: [0, 0, 1],
  out: [1, 0, 0],
});

/** A frame whose drawing shows x to the right and z up, and whose thickness runs along -y. */
const acrossTube = (y: number): Frame => ({
  origin: [0, y, 0],
  right: [1, 0, 0],
  up: [0, 0, 1],
  out: [0, -1, 0],
});

/** A contour of straight lines through corners. */
const closed = (corners: readonly Point[]): Loop =>
  corners.map((from, i) => line(from, corners[(i + 1) % corners.length] ?? from));

/** A profile drawn out from a frame. */
const standing = (kernel: Kernel, profile: Loop, frame: Frame, length: number): TopoDS_Shape =>
  withScratch((keep) =>
    keep(prism(kernel, profile, [], 0, length)).Moved(keep(locationOf(kernel, frame)), false),
  );

function prism(
  kernel: Kernel,
  outer: Loop,
  islands: readonly Loop[],
  from: number,
  height: number,
): TopoDS_Shape {
  return withScratch((keep) => {
    const edge = (loop: Loop): ReturnType<typeof wireOf> => keep(wireOf(kernel, loop, from, 'cradle'));
    return extruded(kernel, edge(outer), islands.map(edge), from, height);
  });
}
