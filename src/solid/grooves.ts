import { middle, distance, minus, plus, times, type Point } from '../base/points.js';
import { union } from '../geom/combine.js';
import { boundsOfCurves, type Bounds } from '../geom/bounds.js';
import { areaOf, circleLoop, isInside, movedLoop, pointOf } from '../geom/loops.js';
import type { Loop, Region, Stroke } from '../geom/segments.js';
import { obround } from '../geom/shapes.js';

/** Where lettering goes on a flat face: a box about its middle, mm. */
export interface Panel {
  readonly centre: Point;
  readonly width: number;
  readonly height: number;
}

/** Line width of lettering, as a share of its height. @see ISO 3098, type B: d = h / 10 (from memory) */
const LINE = 1 / 10;

/**
 * Strokes as grooves: each widened by half a line width to both sides, all united. Centred on the panel, and
 * made smaller where it would not fit.
 */
export function groovesOf(strokes: readonly Stroke[], panel: Panel): Region {
  const points = strokes.flat();
  if (points.length === 0) return [];
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const low: Point = [Math.min(...xs), Math.min(...ys)];
  const high: Point = [Math.max(...xs), Math.max(...ys)];
  const [wide, tall] = minus(high, low);
  const line = LINE * (tall || wide);
  const size = Math.min(1, panel.width / (wide + line), panel.height / (tall + line));
  const placed = (p: Point): Point => plus(times(minus(p, middle(low, high)), size), panel.centre);
  const runs = strokes.map((stroke) => runsOf(stroke.map(placed), line * size));
  // Letter by letter: what lies apart need not be looked at together.
  return clumps(runs).flatMap((clump) => union(clump.map((run) => [run])));
}

/** Gathers runs whose boxes meet. */
function clumps(groups: readonly (readonly Loop[])[]): readonly (readonly Loop[])[] {
  const found: { loops: readonly Loop[]; box: Bounds }[] = [];
  for (const group of groups) {
    let next = { loops: group, box: boundsOfCurves(group.flat()) };
    for (let i = found.length - 1; i >= 0; i--) {
      const other = found[i];
      if (!other || !meet(other.box, next.box)) continue;
      next = { loops: [...other.loops, ...next.loops], box: around(other.box, next.box) };
      found.splice(i, 1);
    }
    found.push(next);
  }
  return found.map(({ loops }) => loops);
}

const meet = (a: Bounds, b: Bounds): boolean =>
  a.left <= b.right && b.left <= a.right && a.bottom <= b.top && b.bottom <= a.top;

const around = (a: Bounds, b: Bounds): Bounds => ({
  left: Math.min(a.left, b.left),
  bottom: Math.min(a.bottom, b.bottom),
  right: Math.max(a.right, b.right),
  top: Math.max(a.top, b.top),
});

/** A stroke as round-ended slots, one from each of its points to the next. */
function runsOf(stroke: readonly Point[], width: number): Loop[] {
  const [only] = stroke;
  if (only && stroke.length === 1) return [circleLoop(only, width / 2)];
  return stroke.slice(1).map((to, i) => {
    const from = stroke[i] ?? to;
    const turn = Math.atan2(to[1] - from[1], to[0] - from[0]);
    return movedLoop(obround(distance(from, to) + width, width), turn, middle(from, to));
  });
}

/** One groove: its edge, and the islands left standing in it. */
export interface Groove {
  readonly outer: Loop;
  readonly islands: readonly Loop[];
}

/** Sorts the loops of a region: each outer one with the holes that lie in it. */
export function separate(region: Region): readonly Groove[] {
  const outers = region.filter((loop) => areaOf(loop) > 0);
  const islands = region.filter((loop) => areaOf(loop) < 0);
  return outers.map((outer) => ({
    outer,
    islands: islands.filter((hole) => isInside(outer, pointOf(hole))),
  }));
}
