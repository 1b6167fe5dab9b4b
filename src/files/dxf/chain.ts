import { distance, type Point } from '../../base/points.js';
import { tolerance } from '../../base/tolerance.js';
import { reversed } from '../../geom/arcs.js';
import type { Segment } from '../../geom/segments.js';

/** A run of edges head to tail, turned round where they were drawn against it. */
export interface Run {
  readonly loop: readonly Segment[];
  readonly closed: boolean;
}

/**
 * Joins loose edges into runs: each run takes the first edge left and goes on with whichever edge begins
 * or ends where it stands, until it is back at its start or finds no more. Ends that meet within the
 * tolerance of a file become one corner, so that a run leaves no gap for a count of windings to slip through.
 */
export function chained(edges: readonly Segment[]): readonly Run[] {
  const left = [...edges];
  const runs: Run[] = [];
  for (let first = left.shift(); first !== undefined; first = left.shift()) {
    const loop = [first];
    let head = first.to;
    while (!meets(head, first.from)) {
      const next = left.findIndex((edge) => meets(edge.from, head) || meets(edge.to, head));
      const [edge] = next < 0 ? [] : left.splice(next, 1);
      if (edge === undefined) break;
      const onward = meets(edge.from, head) ? edge : reversed(edge);
      loop.push({ ...onward, from: head });
      head = onward.to;
    }
    const closed = meets(head, first.from);
    const last = loop.pop();
    if (last) loop.push(closed ? { ...last, to: first.from } : last);
    runs.push({ loop, closed });
  }
  return runs;
}

const meets = (a: Point, b: Point): boolean => distance(a, b) <= tolerance.file;
