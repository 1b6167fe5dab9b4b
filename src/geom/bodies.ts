import { add, distance3, dot3, length3, scale, subtract, type Vector } from '../base/vectors.js';
import { tolerance } from '../base/tolerance.js';
import type { Solid } from './solids.js';

/**
 * A convex body, told by its furthest point toward any direction: all that a distance between two of them, or
 * a sweep, needs. mm in the engine's frame.
 */
export interface Body {
  /** The core's furthest point toward (x, y, z), which need not be of length 1; written into `into`. */
  readonly furthest: (x: number, y: number, z: number, into: Float64Array) => void;
  /** The surface stands this far outside the core: a capsule is a line with a roundness. */
  readonly round: number;
  /** A sphere that holds it, roundness included. */
  readonly centre: Vector;
  readonly reach: number;
  /** Unit directions square to its flat faces: where two bodies stand flush, one of these parts them. */
  readonly axes: readonly Vector[];
}

/** Everything on the far side of a plane: n . x <= offset, n of length 1. */
export interface HalfSpace {
  readonly normal: Vector;
  readonly offset: number;
}

const upright: readonly Vector[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/** A single point. */
export function pointBody(x: number, y: number, z: number): Body {
  return {
    furthest: (_x, _y, _z, into) => {
      into[0] = x;
      into[1] = y;
      into[2] = z;
    },
    round: 0,
    centre: [x, y, z],
    reach: 0,
    axes: [],
  };
}

/** A box along the frame. */
function boxBody(from: Vector, to: Vector): Body {
  return {
    furthest: (x, y, z, into) => {
      into[0] = x > 0 ? to[0] : from[0];
      into[1] = y > 0 ? to[1] : from[1];
      into[2] = z > 0 ? to[2] : from[2];
    },
    round: 0,
    centre: scale(add(from, to), 0.5),
    reach: distance3(from, to) / 2,
    axes: upright,
  };
}

/** A cylinder with flat ends, or a capsule with round ones. */
function rodBody(from: Vector, to: Vector, radius: number, flatEnds: boolean): Body {
  const along = subtract(to, from);
  const long = length3(along);
  const axis = scale(along, 1 / long);
  return {
    furthest: (x, y, z, into) => {
      const t = x * axis[0] + y * axis[1] + z * axis[2];
      const end = t > 0 ? to : from;
      const [px, py, pz] = [x - t * axis[0], y - t * axis[1], z - t * axis[2]];
      const aside = Math.sqrt(px * px + py * py + pz * pz);
      // Along the axis what is left aside is rounding, and points anywhere; all of the end is as far then.
      const all = Math.sqrt(x * x + y * y + z * z);
      const k = flatEnds && aside > tolerance.sameDirection * all ? radius / aside : 0;
      into[0] = end[0] + k * px;
      into[1] = end[1] + k * py;
      into[2] = end[2] + k * pz;
    },
    round: flatEnds ? 0 : radius,
    centre: scale(add(from, to), 0.5),
    reach: flatEnds ? Math.hypot(long / 2, radius) : long / 2 + radius,
    axes: [axis],
  };
}

/**
 * The tightest convex plate over some points of one face: their hull, `thickness` thick toward the unit `out`.
 * @param round added all round, where the points stand for curves that bulge by no more than that
 */
export function plateBody(points: readonly Vector[], out: Vector, thickness: number, round: number): Body {
  const middle = scale(points.reduce(add, [0, 0, 0]), 1 / points.length);
  const wide = Math.max(...points.map((p) => distance3(p, middle)));
  return {
    furthest: (x, y, z, into) => {
      let best = -Infinity;
      for (const p of points) {
        const v = p[0] * x + p[1] * y + p[2] * z;
        if (v <= best) continue;
        best = v;
        into.set(p);
      }
      if (out[0] * x + out[1] * y + out[2] * z <= 0) return;
      for (let k = 0; k < 3; k++) into[k] = (into[k] as number) + thickness * (out[k] as number);
    },
    round,
    centre: add(middle, scale(out, thickness / 2)),
    reach: Math.hypot(wide, thickness / 2) + round,
    axes: [out],
  };
}

/** A bounded convex solid as a body; planes are half spaces, and fields have no shape to tell. */
export function bodyOf(solid: Exclude<Solid, { kind: 'plane' | 'field' }>): Body {
  if (solid.kind === 'box') return boxBody(solid.from, solid.to);
  return rodBody(solid.from, solid.to, solid.diameter / 2, solid.kind === 'cylinder');
}

/** All that a body passes over while it is moved along a straight: convex again, and exact. */
export function swept(body: Body, travel: Vector): Body {
  if (length3(travel) < tolerance.samePoint) return body;
  const [tx, ty, tz] = travel;
  return {
    ...body,
    furthest: (x, y, z, into) => {
      body.furthest(x, y, z, into);
      if (tx * x + ty * y + tz * z <= 0) return;
      into[0] = (into[0] as number) + tx;
      into[1] = (into[1] as number) + ty;
      into[2] = (into[2] as number) + tz;
    },
    centre: add(body.centre, scale(travel, 0.5)),
    reach: body.reach + length3(travel) / 2,
  };
}

/** A body that stands elsewhere. */
export function moved(body: Body, by: Vector): Body {
  return {
    ...body,
    furthest: (x, y, z, into) => {
      body.furthest(x, y, z, into);
      for (let k = 0; k < 3; k++) into[k] = (into[k] as number) + (by[k] as number);
    },
    centre: add(body.centre, by),
  };
}

const here = new Float64Array(3);

/** How far a body reaches toward a unit direction, from the frame's origin (mm). */
export function reachToward(body: Body, toward: Vector): number {
  body.furthest(...toward, here);
  return dot3(toward, [here[0] as number, here[1] as number, here[2] as number]) + body.round;
}

/** The gap (mm) between a body and a half space; exact, below 0 by how deep it stands in it. */
export const gapToHalfSpace = (body: Body, { normal, offset }: HalfSpace): number =>
  -reachToward(body, scale(normal, -1)) - offset;
