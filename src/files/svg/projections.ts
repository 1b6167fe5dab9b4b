import type { Point } from '../../base/points.js';
import { cross3, direction, dot3, scale, add, type Vector } from '../../base/vectors.js';
import { chordsOf } from '../../geom/chords.js';
import { hullOfDiscs } from '../../geom/hulls.js';
import type { KeepOutShape } from '../../job/job.js';
import type { PicturedCylinder } from '../../design/route-picture.js';

/** One of the three ways to look at a header: `flat` has x right and y up as it is seen, mm. */
export interface Projection {
  readonly id: 'head' | 'above' | 'side';
  readonly title: string;
  readonly flat: (at: Vector) => Point;
  /** How near a place is to who looks, mm. */
  readonly near: (at: Vector) => number;
}

/** Facing the head, from above and from the left: first-angle, the head's face to the top and to the left. */
export const projections: Readonly<Record<Projection['id'], Projection>> = {
  head: {
    id: 'head',
    title: 'Facing the head',
    flat: ([right, up]) => [right, up],
    near: ([, , out]) => out,
  },
  above: {
    id: 'above',
    title: 'From above',
    flat: ([right, , out]) => [right, -out],
    near: ([, up]) => up,
  },
  side: {
    id: 'side',
    title: 'From the left',
    flat: ([, up, out]) => [out, up],
    near: ([right]) => -right,
  },
};

/** How far chords may lie inside a curve of a silhouette, mm. */
const SAGITTA = 0.2;
const ROUND = 48;

/** The outline, in a view, of the smallest convex body about some places. */
export function hullOf({ flat }: Projection, places: readonly Vector[], radius = 0): readonly Point[] {
  return chordsOf(hullOfDiscs(places.map((at) => ({ at: flat(at), radius }))), SAGITTA);
}

/** The outline of a cylinder with flat ends. */
export const cylinderOutline = (view: Projection, cylinder: PicturedCylinder): readonly Point[] =>
  hullOf(view, [...ringOf(cylinder, cylinder.from), ...ringOf(cylinder, cylinder.to)]);

/** Places round a flat end. */
function ringOf({ from, to, diameter }: PicturedCylinder, at: Vector): readonly Vector[] {
  const axis = direction([to[0] - from[0], to[1] - from[1], to[2] - from[2]]);
  const aside = direction(cross3(axis, Math.abs(dot3(axis, [0, 0, 1])) < 0.9 ? [0, 0, 1] : [1, 0, 0]));
  const other = cross3(axis, aside);
  return Array.from({ length: ROUND }, (_, i) => {
    const turn = (2 * Math.PI * i) / ROUND;
    const [c, s] = [Math.cos(turn) * diameter * 0.5, Math.sin(turn) * diameter * 0.5];
    return add(at, add(scale(aside, c), scale(other, s)));
  });
}

/** The outline of a keep-out; undefined for one without an outline: a plane, or a file that is not read here. */
export function keepOutOutline(view: Projection, shape: KeepOutShape): readonly Point[] | undefined {
  if (shape.kind === 'cylinder') return cylinderOutline(view, shape);
  if (shape.kind === 'capsule') return hullOf(view, [shape.from, shape.to], shape.diameter / 2);
  if (shape.kind !== 'box') return undefined;
  const { from, to } = shape;
  const corners = [from[0], to[0]].flatMap((x) =>
    [from[1], to[1]].flatMap((y) => [from[2], to[2]].map((z): Vector => [x, y, z])),
  );
  return hullOf(view, corners);
}
