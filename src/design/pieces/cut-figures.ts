import { tolerance } from '../../base/tolerance.js';
import type { CentreLine } from '../../geom/centre-line.js';
import type { Rack } from '../../job/rack.js';
import { halfHeld, HEAT_DISTANCE } from '../cradle-heat.js';
import type { CradlePart } from '../parts.js';
import type { Effort } from './cheapest-stock.js';
import { fromFlange, type CutList } from './cut-list.js';
import { tapeEffect, type TapeEffect } from './as-marked.js';
import { estimatesOf, type Estimates } from './estimates.js';
import { expectedMiss, type ExpectedMiss } from './expected-miss.js';
import { fewestWeldsOf } from './fewest-welds.js';
import { heldMiss } from './held-miss.js';
import type { Solve } from './linear-program.js';
import type { NoWeldZone } from './no-weld-zones.js';
import { primariesToCut, type JobToCut, type RouteToCut } from './primaries-to-cut.js';
import { cuttingRules } from './rules.js';
import { stockByWelds, type StockByWelds } from './weld-price.js';

/** How far a primary is expected to miss the collector. Root mean square, mm. */
export interface PrimaryMiss {
  readonly primary: string;
  /** Welded up free hand, and what each kind of error makes of it by itself. */
  readonly hand: ExpectedMiss;
  /** Tacked in its cradles; undefined where it has none. */
  readonly held: number | undefined;
}

/** Where a primary is not welded, mm from the flange, and what that costs. */
export interface PrimaryZones {
  readonly primary: string;
  readonly zones: readonly NoWeldZone[];
  /** Welds more than the route would need if it could be welded anywhere, which is how routes are counted. */
  readonly more: number;
}

/** A weld nearer to a cradle than printed plastic likes. mm along the tube from the flange. */
export interface NearHeat {
  readonly weld: string;
  readonly primary: string;
  readonly at: number;
  readonly cradle: string;
  readonly room: number;
}

/** What a cut list comes to: estimates, all from the figures of the job's shop. */
export interface CutFigures {
  readonly estimates: Estimates;
  readonly miss: readonly PrimaryMiss[];
  readonly zones: readonly PrimaryZones[];
  readonly nearHeat: readonly NearHeat[];
  /** What rounding the marks to a tape does to each primary; empty where they are not rounded. */
  readonly tape: readonly TapeEffect[];
  /** The cheapest stock for the fewest welds, for one more, and so on; empty where no solver was at hand. */
  readonly byWelds: readonly StockByWelds[];
}

/** A route with the stretches in which it is not welded, and why not. */
export type ZonedRoute = RouteToCut & {
  readonly zones: readonly NoWeldZone[];
  /** Its line as the tube will be, where pieces of it came out otherwise. */
  readonly made?: CentreLine | undefined;
};

/**
 * What a cut list comes to.
 * @param cradles of the fixture, where there is one
 * @param solve prices further welds; left out, they are not priced
 */
export function cutFigures(
  job: JobToCut,
  rack: Rack,
  routes: readonly ZonedRoute[],
  list: CutList,
  cradles: readonly CradlePart[],
  pricing?: { readonly solve: Solve; readonly effort: Effort },
): CutFigures {
  const rules = cuttingRules(rack);
  const primaries = primariesToCut(job, routes);
  const { shop } = job;
  const beginOf = (id: string): number => list.begins[id] ?? 0;
  return {
    estimates: estimatesOf(list, job.tube ?? rack.tube, shop.welding),
    // Cradles count from the flange; what is added to a part that stands counts from its weld.
    miss: routes.map(({ id, line: routed, made: line = routed }): PrimaryMiss => {
      const pieces = list.pieces.filter(({ primary }) => primary === id);
      const held = cradles
        .filter(({ primary, station }) => primary === id && station >= beginOf(id))
        // Anywhere within its clearance: half of it is the standard deviation of a point in a disc, each way.
        .map(({ station, clearance }) => ({
          station: station - beginOf(id),
          play: Math.hypot(shop.cradlePlace, clearance / 2),
        }));
      return {
        primary: id,
        hand: expectedMiss(pieces, line, shop.hand),
        held: held.length === 0 ? undefined : heldMiss(pieces, line, shop.hand, held),
      };
    }),
    zones: routes.map(({ id, zones }, i): PrimaryZones => {
      const primary = primaries[i];
      const count = primary && fewestWeldsOf(primary, rules)?.welds;
      const free = primary && fewestWeldsOf({ ...primary, noWeld: [] }, rules)?.welds;
      const begins = beginOf(id);
      const told = zones.map((zone) => ({ ...zone, from: zone.from + begins, to: zone.to + begins }));
      return { primary: id, zones: told, more: (count ?? 0) - (free ?? 0) };
    }),
    nearHeat: nearHeat(list, cradles),
    tape:
      shop.tape.step > 0
        ? routes.map(({ id, line }) => {
            const pieces = list.pieces.filter(({ primary }) => primary === id);
            return tapeEffect(id, pieces, line.start, list.od, shop.tape.step);
          })
        : [],
    byWelds: pricing ? stockByWelds(primaries, rules, pricing.solve, 2, pricing.effort) : [],
  };
}

/** Welds between pieces that lie nearer to a cradle than they should. The flange's and the collector's are told with the cradle. */
const nearHeat = (list: CutList, cradles: readonly CradlePart[]): NearHeat[] =>
  list.welds.flatMap((weld) => {
    const { id, primary, kind } = weld;
    const at = fromFlange(list, weld);
    return kind === 'flange' || kind === 'collector'
      ? []
      : cradles.flatMap((cradle): NearHeat[] => {
          const room = Math.abs(at - cradle.station) - halfHeld(cradle);
          return cradle.primary === primary && room < HEAT_DISTANCE - tolerance.samePoint
            ? [{ weld: id, primary, at, cradle: cradle.name, room }]
            : [];
        });
  });
