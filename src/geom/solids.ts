import { direction, distance3, scale, subtract, add, dot3, type Vector } from '../base/vectors.js';

/** A solid to keep clear of, mm in the engine's frame. */
export type Solid =
  | { readonly kind: 'box'; readonly from: Vector; readonly to: Vector }
  | {
      /** Flat ends, or round ones. */
      readonly kind: 'cylinder' | 'capsule';
      readonly from: Vector;
      readonly to: Vector;
      readonly diameter: number;
    }
  /** Solid on the side away from the unit normal. */
  | { readonly kind: 'plane'; readonly at: Vector; readonly normal: Vector }
  | ({ readonly kind: 'field' } & Field);

/** Any other solid, by a signed distance that need not be exact where nothing hangs on it. mm. */
export interface Field {
  /**
   * Signed distance, below 0 inside; never above the truth. Where it is no more than what the field was made
   * to be exact within, it is exact; further off it may fall short, but not below that. Where the truth is
   * certainly `enough` or more, any value from `enough` up to the truth will do.
   */
  readonly distance: (x: number, y: number, z: number, enough: number) => number;
  /** A sphere about all of it. */
  readonly centre: Vector;
  readonly radius: number;
  /** What it stands for may lie further off than its own distance by as much: 0 where that is exact. */
  readonly doubt: number;
}

/** A solid with the clearance (mm) asked between it and the surface of a tube. */
export interface KeptClear {
  readonly solid: Solid;
  readonly clear: number;
}

const BOX = 0;
const CAPSULE = 1;
const CYLINDER = 2;
const FIELD = 3;
const PLANE = 4;
const EACH = 16;

/** Solids packed for quick asking. A solid's place is its index in the list it was packed from. */
export interface SolidSet {
  readonly count: number;
  readonly data: Float64Array;
  readonly fields: readonly (Field | undefined)[];
  /** Of the solid that the last `leastDistanceTo` was nearest to. */
  nearest: number;
}

/** Packs solids: kind, clearance, a sphere about it (centre, radius), then its own numbers. */
export function packSolids(list: readonly KeptClear[]): SolidSet {
  const data = new Float64Array(list.length * EACH);
  list.forEach(({ solid, clear }, i) => {
    const o = i * EACH;
    data[o + 1] = clear;
    if (solid.kind === 'box') {
      data.set([BOX, clear, ...scale(add(solid.from, solid.to), 0.5)], o);
      data[o + 5] = distance3(solid.from, solid.to) / 2;
      data.set([...solid.from, ...solid.to], o + 6);
    } else if (solid.kind === 'plane') {
      data.set([PLANE, clear, 0, 0, 0, Infinity, ...solid.normal, dot3(solid.normal, solid.at)], o);
    } else if (solid.kind === 'field') {
      data.set([FIELD, clear, ...solid.centre, solid.radius], o);
    } else {
      const long = distance3(solid.from, solid.to);
      data.set([solid.kind === 'capsule' ? CAPSULE : CYLINDER, clear], o);
      data.set(scale(add(solid.from, solid.to), 0.5), o + 2);
      data[o + 5] = long / 2 + solid.diameter / 2;
      data.set(
        [...solid.from, ...direction(subtract(solid.to, solid.from)), long, solid.diameter / 2],
        o + 6,
      );
    }
  });
  const fields = list.map(({ solid }) => (solid.kind === 'field' ? solid : undefined));
  return { count: list.length, data, fields, nearest: -1 };
}

/** What the solid that the last `leastDistanceTo` was nearest to may lie further off than that, mm. */
export const doubtOf = (set: SolidSet, solid = set.nearest): number => set.fields[solid]?.doubt ?? 0;

/**
 * The least, over the solids, of signed distance less clearance (mm) at a point: exact outside; inside, the
 * depth to the nearest face. It changes by no more than the way moved, but where a field falls short of the
 * truth: then it is a lower bound, off the truth only where it says that all is further off than the field
 * must be exact within. `nearest` of the set names the solid.
 * @param enough nothing hangs on how much further off than this (mm) all is: quicker where there are fields
 */
export function leastDistanceTo(set: SolidSet, x: number, y: number, z: number, enough = Infinity): number {
  const d = set.data;
  let best = Infinity;
  for (let i = 0, o = 0; i < set.count; i++, o += EACH) {
    const clear = d[o + 1] as number;
    const kind = d[o] as number;
    if (kind < PLANE) {
      // Nothing to learn where even the sphere about it is further away than the best so far.
      const reach = best + clear + (d[o + 5] as number);
      const sx = x - (d[o + 2] as number);
      const sy = y - (d[o + 3] as number);
      const sz = z - (d[o + 4] as number);
      if (reach > 0 && sx * sx + sy * sy + sz * sz > reach * reach) continue;
    }
    let v: number;
    if (kind === BOX) {
      const ax = (d[o + 6] as number) - x;
      const bx = x - (d[o + 9] as number);
      const ay = (d[o + 7] as number) - y;
      const by = y - (d[o + 10] as number);
      const az = (d[o + 8] as number) - z;
      const bz = z - (d[o + 11] as number);
      const dx = ax > bx ? ax : bx;
      const dy = ay > by ? ay : by;
      const dz = az > bz ? az : bz;
      if (dx <= 0 && dy <= 0 && dz <= 0) v = dx > dy ? (dx > dz ? dx : dz) : dy > dz ? dy : dz;
      else v = Math.sqrt((dx > 0 ? dx * dx : 0) + (dy > 0 ? dy * dy : 0) + (dz > 0 ? dz * dz : 0));
    } else if (kind === PLANE) {
      v =
        x * (d[o + 6] as number) + y * (d[o + 7] as number) + z * (d[o + 8] as number) - (d[o + 9] as number);
    } else if (kind === FIELD) {
      v = (set.fields[i] as Field).distance(x, y, z, (best < enough ? best : enough) + clear);
    } else {
      const vx = x - (d[o + 6] as number);
      const vy = y - (d[o + 7] as number);
      const vz = z - (d[o + 8] as number);
      const long = d[o + 12] as number;
      const t = vx * (d[o + 9] as number) + vy * (d[o + 10] as number) + vz * (d[o + 11] as number);
      const flat = vx * vx + vy * vy + vz * vz - t * t;
      const beyond = t < 0 ? -t : t - long;
      if (kind === CAPSULE) {
        const over = beyond > 0 ? beyond : 0;
        v = Math.sqrt((flat > 0 ? flat : 0) + over * over) - (d[o + 13] as number);
      } else {
        const aside = Math.sqrt(flat > 0 ? flat : 0) - (d[o + 13] as number);
        if (aside <= 0 && beyond <= 0) v = aside > beyond ? aside : beyond;
        else v = Math.sqrt((aside > 0 ? aside * aside : 0) + (beyond > 0 ? beyond * beyond : 0));
      }
    }
    v -= clear;
    if (v < best) {
      best = v;
      set.nearest = i;
    }
  }
  return best;
}
