import Manifold, { type CrossSection, type ManifoldToplevel } from 'manifold-3d';
import { lengthOf, pointAt } from '../../src/geom/arcs.js';
import type { Loop, Region } from '../../src/geom/segments.js';

/*
 * A second method for plane shapes: fine polygons through Clipper2 (manifold-3d's CrossSection),
 * a library that shares nothing with the code under test and knows no arcs.
 */

/** How far a chord may stray from its arc, mm. */
export const SAGITTA = 2e-3;
/** Facets of a full circle where Clipper rounds a corner. */
const FACETS = 256;

let opened: Promise<ManifoldToplevel> | undefined;

/** The polygon kernel, opened once. */
export function polygonKernel(): Promise<ManifoldToplevel> {
  opened ??= Manifold().then((kernel) => {
    kernel.setup();
    return kernel;
  });
  return opened;
}

/** A loop as a fine polygon with its corners on the curve. */
export function polygonOf(loop: Loop): [number, number][] {
  return loop.flatMap((piece) => {
    const turn = piece.kind === 'arc' ? 2 * Math.acos(Math.max(0, 1 - SAGITTA / piece.radius)) : Infinity;
    const count = piece.kind === 'line' ? 1 : Math.ceil(Math.abs(piece.sweep) / turn);
    return Array.from({ length: count }, (_, i): [number, number] => {
      const [x, y] = pointAt(piece, i / count);
      return [x, y];
    });
  });
}

/** A region as fine polygons; overlapping loops of one sense run together. */
export const sectionOf = (kernel: ManifoldToplevel, region: Region): CrossSection =>
  new kernel.CrossSection(region.map(polygonOf), 'NonZero');

/** Moved outward (or inward) with rounded corners. */
export const sectionGrown = (section: CrossSection, by: number): CrossSection =>
  section.offset(by, 'Round', 2, FACETS);

/** What the polygons of regions of this much edge may miss in area: chords lie inside their arcs. */
export const areaDoubt = (...regions: readonly Region[]): number =>
  1e-3 + 0.7 * SAGITTA * regions.flat(2).reduce((sum, piece) => sum + lengthOf(piece), 0);

/** Signed area of one polygon. */
export const polygonArea = (polygon: readonly (readonly number[])[]): number =>
  polygon.reduce((sum, [ax = 0, ay = 0], i) => {
    const [bx = 0, by = 0] = polygon[(i + 1) % polygon.length] ?? [];
    return sum + (ax * by - ay * bx) / 2;
  }, 0);
