import { cross, dot } from '../base/points.js';
import { tidy } from '../base/numbers.js';
import { tolerance } from '../base/tolerance.js';
import { arcBetween, line, tangentAt } from './arcs.js';
import type { Edge } from './edges.js';
import { areaOf, perimeterOf } from './loops.js';
import { nearestOn } from './nearest.js';
import type { Loop, Segment } from './segments.js';

/**
 * Strings edges together, head to tail, into closed loops that pass no joint twice. Metal lies left of every
 * edge; where several edges leave a joint the leftmost is taken, so that loops touch there and never cross.
 * Neighbouring pieces of one line or circle become one; slivers of no area are left out.
 * @throws Error naming the place where no edge goes on
 */
export function chain(edges: readonly Edge[]): Loop[] {
  const leaving = new Map<number, Edge[]>();
  for (const edge of edges) {
    const list = leaving.get(edge.from);
    if (list) list.push(edge);
    else leaving.set(edge.from, [edge]);
  }
  const used = new Set<Edge>();
  const loops: Loop[] = [];
  for (const first of edges) {
    if (used.has(first)) continue;
    const path: Edge[] = [];
    /** Where on the path each joint was left. */
    const passed = new Map<number, number>();
    let here: Edge | undefined = first;
    while (here) {
      used.add(here);
      passed.set(here.from, path.length);
      path.push(here);
      const back = passed.get(here.to);
      if (back !== undefined) {
        const round = path.splice(back);
        for (const edge of round) passed.delete(edge.from);
        loops.push(round.map((edge) => edge.piece));
        if (path.length === 0) break;
      }
      const next = leftmost(
        here,
        (leaving.get(here.to) ?? []).filter((edge) => !used.has(edge)),
      );
      if (!next)
        throw new Error(`cannot close the outline at (${here.piece.to.map((v) => tidy(v)).join(', ')})`);
      here = next;
    }
  }
  return loops
    .map(joinedRuns)
    .filter((loop) => Math.abs(areaOf(loop)) > tolerance.samePoint * perimeterOf(loop));
}

/** The edge that turns most to the left out of a joint. Straight back counts as left. */
function leftmost(arriving: Edge, leaving: readonly Edge[]): Edge | undefined {
  if (leaving.length < 2) return leaving[0];
  const along = tangentAt(arriving.piece, 1);
  let best: Edge | undefined;
  let most = -Infinity;
  for (const edge of leaving) {
    const out = tangentAt(edge.piece, 0);
    const turn = Math.atan2(cross(along, out), dot(along, out));
    const left = turn < -Math.PI + tolerance.samePoint ? Math.PI : turn;
    if (left > most) [most, best] = [left, edge];
  }
  return best;
}

/** A loop whose neighbouring pieces of one line or one circle are made one. A full circle stays in two. */
export function joinedRuns(loop: Loop): Loop {
  const out: Segment[] = [];
  for (const piece of loop) {
    const before = out[out.length - 1];
    const both = before && asOne(before, piece);
    if (both) out[out.length - 1] = both;
    else out.push(piece);
  }
  const [first] = out;
  const last = out[out.length - 1];
  const both = first && last && out.length > 2 ? asOne(last, first) : undefined;
  return both ? [both, ...out.slice(1, -1)] : out;
}

/** Two pieces in a row as one, where they lie on one line or one circle. */
function asOne(a: Segment, b: Segment): Segment | undefined {
  const near = tolerance.samePoint;
  if (a.kind === 'line' && b.kind === 'line') {
    const both = line(a.from, b.to);
    const [x, y] = nearestOn(both, a.to);
    const onward = dot(tangentAt(a, 0), tangentAt(b, 0)) > 0;
    return onward && Math.hypot(x - a.to[0], y - a.to[1]) <= near ? both : undefined;
  }
  if (a.kind === 'line' || b.kind === 'line') return undefined;
  const sweep = a.sweep + b.sweep;
  const same =
    Math.abs(a.radius - b.radius) <= near &&
    Math.abs(a.centre[0] - b.centre[0]) <= near &&
    Math.abs(a.centre[1] - b.centre[1]) <= near &&
    a.sweep > 0 === b.sweep > 0 &&
    Math.abs(sweep) < 2 * Math.PI - near;
  return same ? arcBetween(a.from, b.to, a.centre, a.radius, sweep) : undefined;
}
