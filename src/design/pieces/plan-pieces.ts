import { turnOf } from '../../base/numbers.js';
import type { Outcome } from '../../base/problems.js';
import { cross3, direction, dot3, squareTo } from '../../base/vectors.js';
import { portClockingZero } from '../../geom/clocking-zero.js';
import type { CentreLine } from '../../geom/centre-line.js';
import type { Port } from '../../job/job.js';
import type { Rack } from '../../job/rack.js';
import type { Effort } from './cheapest-stock.js';
import { correctCutList } from './as-cut.js';
import { chooseStock } from './choose-stock.js';
import type { CutList } from './cut-list.js';
import { layOut, type Ends } from './lay-out.js';
import type { Solve } from './linear-program.js';
import type { NoWeld } from './primary.js';
import { leanOf, primariesToCut, type JobToCut, type RouteToCut } from './primaries-to-cut.js';
import { cuttingRules, type CuttingChoices } from './rules.js';

export interface PlanOptions {
  readonly choices?: CuttingChoices;
  /** Without a solver the plan has the fewest welds, and stock chosen quickly: no bound on its cost. */
  readonly solve?: Solve;
  readonly effort?: Effort;
}

/**
 * From routes to the cut list: fewest welds, then cheapest stock, then where to mark every cut.
 * @param routes of some or all primaries of the job
 * @returns the cut list, or why there is none, each with its place in the job
 */
export function planPieces(
  job: JobToCut,
  routes: readonly RouteToCut[],
  rack: Rack,
  options: PlanOptions = {},
): Outcome<CutList> {
  const rules = cuttingRules(rack, options.choices);
  const primaries = primariesToCut(job, routes);
  const { chosen, problems } = chooseStock(primaries, rules, options.solve, options.effort);
  if (chosen === undefined) return { value: undefined, problems };
  const collectorWeld = job.collector?.joint === 'welded';
  const endsOf = (id: string): Ends => {
    const port = job.ports.find((one) => one.id === id);
    const square = port === undefined || job.flange === undefined || job.builtParts?.[id] !== undefined;
    return { face: square ? undefined : faceOf(port), collectorWeld };
  };
  const list = layOut(chosen, rules, rack.tube, endsOf);
  if (Object.keys(job.asCut).length === 0) return { value: list, problems };
  const noWeldOf = (id: string): readonly NoWeld[] => primaries.find((one) => one.id === id)?.noWeld ?? [];
  const lineOf = (id: string): CentreLine | undefined => routes.find((one) => one.id === id)?.line;
  const slip = job.collector?.joint === 'slip' ? job.collector.slip.depth : 0;
  const corrected = correctCutList(job.asCut, list, { rack, noWeldOf, slip, ...options }, lineOf);
  return { value: corrected.value, problems: [...problems, ...corrected.problems] };
}

/**
 * The oblique first cut of a tube that leans: the lean, and where its long side stands, as a clock from the
 * port's clocking zero, right hand about the flow. The long side is the one turned toward the face's `out`.
 */
function faceOf(port: Port): Ends['face'] {
  const { direction: flow, face } = port;
  const long = squareTo(face.out, flow);
  if (leanOf(port) === 0) return undefined;
  const [from, to] = [direction(squareTo(portClockingZero(flow), flow)), direction(long)];
  const toward = turnOf(Math.atan2(dot3(cross3(from, to), flow), dot3(from, to)));
  return { lean: leanOf(port), toward };
}
