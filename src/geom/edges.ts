import type { Point } from '../base/points.js';
import { tolerance } from '../base/tolerance.js';
import { lengthOf, partOf, pointAt } from './arcs.js';
import { boundsOfCurve, type Bounds } from './bounds.js';
import { crossingsOf } from './crossings.js';
import type { Segment } from './segments.js';

/** A piece between two joints, nothing crossing it in between. Joints are known by number. */
export interface Edge {
  readonly from: number;
  readonly to: number;
  readonly piece: Segment;
  readonly middle: Point;
  /** Which of the segments it was cut from. */
  readonly source: number;
}

/** Pieces no longer than this, with both ends at one joint, are nothing (mm). */
const NOTHING = 4 * tolerance.samePoint;
/** Coincident pieces have their joints within one tolerance of each other's lines, so their middles within a few. */
const ALIKE = 4 * tolerance.samePoint;

/** Points numbered so that two within the same-point tolerance have one number. */
class Joints {
  readonly points: Point[] = [];
  private readonly cells = new Map<number, number[]>();

  number(at: Point): number {
    const near = tolerance.samePoint;
    const [left, right] = [cell(at[0] - near), cell(at[0] + near)];
    const [bottom, top] = [cell(at[1] - near), cell(at[1] + near)];
    for (let i = left; i <= right; i++) {
      for (let j = bottom; j <= top; j++) {
        for (const known of this.cells.get(i * ROW + j) ?? []) {
          const point = this.points[known] as Point;
          if (Math.abs(point[0] - at[0]) <= near && Math.abs(point[1] - at[1]) <= near) return known;
        }
      }
    }
    const fresh = this.points.push(at) - 1;
    const key = cell(at[0]) * ROW + cell(at[1]);
    const list = this.cells.get(key);
    if (list) list.push(fresh);
    else this.cells.set(key, [fresh]);
    return fresh;
  }
}

/** Drawers of 0.01 mm to look points up in, and more of them than any sheet is high. */
const cell = (x: number): number => Math.floor(x * 100);
const ROW = 2 ** 24;

/**
 * Cuts segments wherever two of them meet. All ends and crossings within the same-point tolerance of each other
 * become one joint, and every edge ends exactly on its joints.
 * @param mayMeet whether two segments, by index, are to be cut by each other
 */
export function edgesOf(segments: readonly Segment[], mayMeet: (i: number, j: number) => boolean): Edge[] {
  const joints = new Joints();
  const cuts = segments.map((s) => [
    { t: 0, joint: joints.number(s.from) },
    { t: 1, joint: joints.number(s.to) },
  ]);
  const boxes = segments.map((s) => boundsOfCurve(s));
  for (let i = 0; i < segments.length; i++) {
    const box = boxes[i] as Bounds;
    for (let j = i + 1; j < segments.length; j++) {
      if (!boxesMeet(box, boxes[j] as Bounds) || !mayMeet(i, j)) continue;
      for (const { at, t, u } of crossingsOf(segments[i] as Segment, segments[j] as Segment)) {
        const joint = joints.number(at);
        cuts[i]?.push({ t, joint });
        cuts[j]?.push({ t: u, joint });
      }
    }
  }
  const edges: Edge[] = [];
  segments.forEach((segment, source) => {
    const list = (cuts[source] ?? []).sort((a, b) => a.t - b.t);
    let [before] = list;
    for (const cut of list) {
      if (!before || cut === before) continue;
      if (cut.joint === before.joint && (cut.t - before.t) * lengthOf(segment) <= NOTHING) continue;
      const [from, to] = [before.joint, cut.joint];
      const ends = [joints.points[from], joints.points[to]] as const;
      const piece = partOf(segment, before.t, cut.t, ends[0], ends[1]);
      edges.push({ from, to, piece, middle: pointAt(piece, 0.5), source });
      before = cut;
    }
  });
  return edges;
}

const boxesMeet = (a: Bounds, b: Bounds): boolean =>
  a.left <= b.right + tolerance.samePoint &&
  b.left <= a.right + tolerance.samePoint &&
  a.bottom <= b.top + tolerance.samePoint &&
  b.bottom <= a.top + tolerance.samePoint;

/** Edges that lie on each other: one of them, and all of them with whether they run the same way. */
export interface SharedEdge {
  readonly edge: Edge;
  readonly all: { readonly source: number; readonly forward: boolean }[];
}

/** Puts edges together that run between the same joints along the same way. */
export function sharedEdges(edges: readonly Edge[]): SharedEdge[] {
  const byEnds = new Map<number, SharedEdge[]>();
  const shared: SharedEdge[] = [];
  for (const edge of edges) {
    const key = Math.min(edge.from, edge.to) * ROW + Math.max(edge.from, edge.to);
    const list = byEnds.get(key);
    const same = list?.find(({ edge: other }) => lieTogether(edge, other));
    if (same) {
      // A closed edge has its ends at one joint: there the way it bends tells how it runs.
      const forward = edge.from === edge.to ? bend(edge) === bend(same.edge) : edge.from === same.edge.from;
      same.all.push({ source: edge.source, forward });
      continue;
    }
    const fresh: SharedEdge = { edge, all: [{ source: edge.source, forward: true }] };
    shared.push(fresh);
    if (list) list.push(fresh);
    else byEnds.set(key, [fresh]);
  }
  return shared;
}

const lieTogether = (a: Edge, b: Edge): boolean =>
  Math.abs(a.middle[0] - b.middle[0]) <= ALIKE && Math.abs(a.middle[1] - b.middle[1]) <= ALIKE;

const bend = (edge: Edge): boolean => edge.piece.kind === 'arc' && edge.piece.sweep > 0;
