import type { Point } from '../../base/points.js';
import { boundsOfCurve, type Bounds } from '../../geom/bounds.js';
import { areaOf, boundsOf, circleLoop, isInside } from '../../geom/loops.js';
import type { Loop, Segment } from '../../geom/segments.js';
import type { FoundDrawing } from '../dxf/read.js';

/** An edge and its box, so that pairs that lie far apart are passed over quickly. */
export interface BoxedEdge {
  readonly edge: Segment;
  readonly box: Bounds;
}

/** A closed contour found on a cut layer. */
export interface CutContour {
  readonly loop: Loop;
  readonly edges: readonly BoxedEdge[];
  readonly box: Bounds;
  /** mm2, never negative. */
  readonly area: number;
  readonly round: { readonly centre: Point; readonly radius: number } | undefined;
}

/** What the table will cut: the outline, what lies within it, and what it cannot cut because it is open. */
export interface CutContours {
  readonly outer: readonly CutContour[];
  readonly inner: readonly CutContour[];
  readonly open: number;
}

/** The cut contours of a drawing that was read. On one layer the largest is the outline. */
export function cutContours(found: FoundDrawing, oneLayer: boolean): CutContours {
  const onLayer = (layer: string): readonly CutContour[] => [
    ...found.runs.filter((run) => run.layer === layer && run.closed).map((run) => contourOf(run.loop)),
    ...found.circles
      .filter((circle) => circle.layer === layer)
      .map(({ centre, radius }) => contourOf(circleLoop(centre, radius), { centre, radius })),
  ];
  const isCut = (layer: string): boolean =>
    oneLayer ? layer === '0' : layer === 'CUT_OUTER' || layer === 'CUT_INNER';
  const open = found.runs.filter((run) => !run.closed && isCut(run.layer)).length;
  if (!oneLayer) return { outer: onLayer('CUT_OUTER'), inner: onLayer('CUT_INNER'), open };
  const all = [...onLayer('0')].sort((a, b) => b.area - a.area);
  return { outer: all.slice(0, 1), inner: all.slice(1), open };
}

/** Whether a place lies within a contour. */
export const isWithin = ({ loop, box }: CutContour, at: Point): boolean =>
  at[0] >= box.left && at[0] <= box.right && at[1] >= box.bottom && at[1] <= box.top && isInside(loop, at);

/** A loop with what the measures need of it. */
export const contourOf = (loop: Loop, round?: CutContour['round']): CutContour => ({
  loop,
  edges: boxed(loop),
  box: boundsOf(loop),
  area: Math.abs(areaOf(loop)),
  round,
});

export const boxed = (edges: readonly Segment[]): readonly BoxedEdge[] =>
  edges.map((edge) => ({ edge, box: boundsOfCurve(edge) }));

/** How far apart two boxes are at the least along x or y, mm: 0 where they overlap. What is in them is no nearer. */
export const boxGap = (a: Bounds, b: Bounds): number =>
  Math.max(0, a.left - b.right, b.left - a.right, a.bottom - b.top, b.bottom - a.top);
