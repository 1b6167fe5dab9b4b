import { centreLineOf } from '../../geom/centre-line.js';
import { intersectionPointsOf } from '../../geom/intersection-points.js';
import { packCentreLine } from '../../geom/packed-line.js';
import type { Candidate } from './candidate.js';
import { builtLengthOf, type RouteProblem, type RouteStart } from './problem.js';
import { weldsOfLine } from './rules.js';

/** The one way of a kept primary, or undefined where the primary is free. */
export function keptCandidate(problem: RouteProblem, start: number): Candidate | undefined {
  const kept = problem.kept[start];
  if (kept === undefined) return undefined;
  const line = centreLineOf(problem.starts[start] as RouteStart, kept.rows);
  const { points, clrs } = intersectionPointsOf(line);
  const packed = packCentreLine(line);
  return {
    start,
    slot: kept.slot,
    bends: clrs.length,
    points: Float64Array.from(points.flat()),
    clrs,
    line: packed,
    length: builtLengthOf(problem, start) + line.length,
    welds: weldsOfLine(problem, start, packed, clrs),
    spare: Infinity,
  };
}
