import { distance } from '../../base/points.js';
import { tolerance } from '../../base/tolerance.js';
import { pointAt } from '../../geom/arcs.js';
import type { Segment, Stroke } from '../../geom/segments.js';
import { boxed, boxGap, isWithin, type CutContour } from './contours.js';
import { crossingsOf, gapBetween, gapTo } from './gaps.js';

/** How the contours of a drawing stand to one another. */
export interface Closeness {
  /** Least metal between the edges of any two contours, mm; Infinity for a single one. */
  readonly web: number;
  /** Pairs of contours that cross or touch, and contours that cross themselves. */
  readonly crossings: number;
  /** Edges that lie on top of another just like it. */
  readonly doubled: number;
}

/** Measures every pair of contours. Pairs whose boxes are farther apart than the least web are passed over. */
export function closenessOf(contours: readonly CutContour[]): Closeness {
  let web = Infinity;
  let crossings = 0;
  let doubled = 0;
  contours.forEach((one, i) => {
    if (crossesItself(one)) crossings++;
    for (const other of contours.slice(i + 1)) {
      if (boxGap(one.box, other.box) > web) continue;
      let least = Infinity;
      for (const a of one.edges) {
        for (const b of other.edges) {
          if (boxGap(a.box, b.box) > Math.min(web, least)) continue;
          least = Math.min(least, gapBetween(a.edge, b.edge));
          if (sameCut(a.edge, b.edge)) doubled++;
        }
      }
      if (least <= tolerance.samePoint) crossings++;
      web = Math.min(web, least);
    }
  });
  return { web, crossings, doubled };
}

/** Whether two edges cut the same line, in either direction. */
function sameCut(a: Segment, b: Segment): boolean {
  const near = tolerance.file;
  const along = distance(a.from, b.from) < near && distance(a.to, b.to) < near;
  const against = distance(a.from, b.to) < near && distance(a.to, b.from) < near;
  return (along || against) && distance(pointAt(a, 0.5), pointAt(b, 0.5)) < near;
}

/**
 * Whether a contour crosses, touches or doubles back on itself. Neighbours share a corner, so they count
 * only where they also meet somewhere else or lie on each other.
 */
function crossesItself({ edges }: CutContour): boolean {
  return edges.some((a, i) =>
    edges.slice(i + 1).some((b, k) => {
      if (boxGap(a.box, b.box) > tolerance.samePoint) return false;
      const next = k === 0;
      const last = i + 1 + k === edges.length - 1 && i === 0;
      if (!next && !last) return gapBetween(a.edge, b.edge) <= tolerance.samePoint;
      const corners = [...(next ? [a.edge.to] : []), ...(last ? [a.edge.from] : [])];
      const elsewhere = crossingsOf(a.edge, b.edge).some((at) =>
        corners.every((corner) => distance(at, corner) > tolerance.file),
      );
      return elsewhere || liesOn(a.edge, b.edge) || liesOn(b.edge, a.edge);
    }),
  );
}

const liesOn = (a: Segment, b: Segment): boolean => gapTo(b, pointAt(a, 0.5)) <= tolerance.samePoint;

/** How many strokes leave the metal: a torch that marks across an opening loses its arc. */
export function strokesOffMetal(
  strokes: readonly Stroke[],
  outer: readonly CutContour[],
  inner: readonly CutContour[],
): number {
  const contours = [...outer, ...inner];
  return strokes.filter((stroke) => {
    const [start] = stroke;
    if (start === undefined) return false;
    if (!outer.some((contour) => isWithin(contour, start))) return true;
    if (inner.some((contour) => isWithin(contour, start))) return true;
    const pieces = boxed(
      stroke.slice(1).map((to, i): Segment => ({ kind: 'line', from: stroke[i] ?? start, to })),
    );
    return pieces.some((piece) =>
      contours.some((contour) =>
        contour.edges.some(
          ({ edge, box }) =>
            boxGap(piece.box, box) === 0 && gapBetween(piece.edge, edge) <= tolerance.samePoint,
        ),
      ),
    );
  }).length;
}
