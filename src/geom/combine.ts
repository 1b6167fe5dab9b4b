import type { Point } from '../base/points.js';
import { reversed } from './arcs.js';
import { boundsOfCurves, type Bounds } from './bounds.js';
import { chain } from './chain.js';
import { edgesOf, sharedEdges, type Edge, type SharedEdge } from './edges.js';
import { windingAt } from './loops.js';
import type { Loop, Region, Segment } from './segments.js';
import { orSmaller } from './smaller.js';

/**
 * All that any of the regions covers. Edges they share or touch along, shared arcs, one within another and
 * regions apart are all sound. Regions that touch in one point only stay separate loops.
 * @throws Error naming the place, where the outline cannot be closed: never a wrong loop
 */
export const union = (regions: readonly Region[]): Region =>
  combined(regions, (inside) => inside.includes(true));

/** All that both regions cover. Errors as for `union`. */
export const intersection = (a: Region, b: Region): Region =>
  combined([a, b], (inside) => !inside.includes(false));

/** What the first region covers and the second does not. Errors as for `union`. */
export const difference = (a: Region, b: Region): Region =>
  combined([a, b], (inside) => inside[0] === true && inside[1] === false);

const combined = (regions: readonly Region[], wanted: Rule): Region =>
  orSmaller(regions, (drawn) => combine(drawn, wanted));

/** Whether what lies inside these regions and outside the others belongs to the result. */
type Rule = (inside: readonly boolean[]) => boolean;

/**
 * Cuts all loops where they meet; each edge then has one side in and one side out of each region it bounds, and
 * both sides alike for the others. It belongs to the result where the rule says so for one side only.
 */
function combine(regions: readonly Region[], wanted: Rule): Region {
  const segments: Segment[] = [];
  const owners: number[] = [];
  const loops: Loop[] = [];
  regions.forEach((region, owner) => {
    for (const loop of region) {
      for (const segment of loop) {
        segments.push(segment);
        owners.push(owner);
        loops.push(loop);
      }
    }
  });
  // Loops of one region may touch; a loop does not meet itself.
  const edges = edgesOf(segments, (i, j) => loops[i] !== loops[j]);
  const boxes = regions.map((region) => boundsOfCurves(region.flat()));
  const left: boolean[] = [];
  const right: boolean[] = [];
  const kept: Edge[] = [];
  for (const shared of sharedEdges(edges)) {
    sidesOf(shared, regions, boxes, owners, left, right);
    const onLeft = wanted(left);
    if (onLeft === wanted(right)) continue;
    kept.push(onLeft ? shared.edge : turnedAbout(shared.edge));
  }
  return chain(kept);
}

/** For each region, whether the left and the right of an edge lie in it. */
function sidesOf(
  { edge, all }: SharedEdge,
  regions: readonly Region[],
  boxes: readonly Bounds[],
  owners: readonly number[],
  left: boolean[],
  right: boolean[],
): void {
  regions.forEach((region, k) => {
    let along = 0;
    for (const { source, forward } of all) if (owners[source] === k) along += forward ? 1 : -1;
    if (along !== 0) {
      left[k] = along > 0;
      right[k] = along < 0;
      return;
    }
    left[k] = right[k] = covers(region, boxes[k] as Bounds, edge.middle);
  });
}

function covers(region: Region, box: Bounds, point: Point): boolean {
  if (point[0] < box.left || point[0] > box.right || point[1] < box.bottom || point[1] > box.top)
    return false;
  let turns = 0;
  for (const loop of region) turns += windingAt(loop, point);
  return turns !== 0;
}

const turnedAbout = (edge: Edge): Edge => ({
  ...edge,
  from: edge.to,
  to: edge.from,
  piece: reversed(edge.piece),
});
