import { scale, add, distance3 } from '../base/vectors.js';
import { cornersFilledOnce } from './corner-grid.js';
import { meshDistance } from './mesh-distance.js';
import type { Field } from './solids.js';
import { boxOfTriangles, type Triangles } from './triangles.js';

/** Pitches of the two grids of known distances, mm. */
const COARSE = 32;
const FINE = 8;
/** Further off than that a coarse bound is good enough, mm: a march then takes long steps all the same. */
const FAR = 24;
const NEAR = 3;

/** A solid given by its skin of triangles. */
export interface MeshSolid {
  /**
   * Its distance as a field.
   * @param exactWithin distances up to this are exact (mm)
   */
  readonly fieldWithin: (exactWithin: number) => Field;
}

/**
 * A skin of triangles as something to keep clear of. Distances are looked up in grids that are filled as they
 * are asked: a corner of the grid at distance c says that a point r mm away from it is at c - r at least. Where
 * that does not settle it, the triangles themselves are asked. What is answered does not depend on what was
 * asked before.
 * @param closed see `meshDistance`
 * @param standOff how far (mm) the triangles may lie from the surface that they stand for: distances are less
 *   by that, so that they are never above the truth
 */
export function meshSolid(triangles: Triangles, closed: boolean, standOff = 0): MeshSolid {
  const exact = meshDistance(triangles, closed);
  const { from, to } = boxOfTriangles(triangles);
  const at = (x: number, y: number, z: number): number => exact.signed(x, y, z);
  const coarse = cornersFilledOnce(COARSE, at);
  const fine = cornersFilledOnce(FINE, at);
  const beside = (x: number, low: number, high: number): number =>
    x < low ? low - x : x > high ? x - high : 0;

  /** Distance to the triangles: exact where no more than `within`, and see `Field`. */
  const bounded = (x: number, y: number, z: number, within: number, enough: number): number => {
    const [bx, by, bz] = [beside(x, from[0], to[0]), beside(y, from[1], to[1]), beside(z, from[2], to[2])];
    const box = Math.sqrt(bx * bx + by * by + bz * bz);
    // Within the box it says nothing, for inside of the skin the distance is below 0.
    if (box > 0 && (box >= enough || box > within + FAR)) return box;
    const far = coarse(x, y, z);
    if (far.least >= enough || far.least > within + FAR) return far.least;
    const near = fine(x, y, z);
    if (near.least >= enough || near.least > within + NEAR) return near.least;
    // A corner further from the skin than from the point has the skin on the same side of both.
    const same = Math.abs(near.corner) > near.away;
    return exact.signed(x, y, z, Math.abs(near.corner) + near.away, same ? near.corner < 0 : undefined);
  };
  return {
    fieldWithin: (exactWithin) => ({
      distance: (x, y, z, enough) => bounded(x, y, z, exactWithin + standOff, enough + standOff) - standOff,
      centre: scale(add(from, to), 0.5),
      radius: distance3(from, to) / 2 + standOff,
      doubt: 2 * standOff,
    }),
  };
}
