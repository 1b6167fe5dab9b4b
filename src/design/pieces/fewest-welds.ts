import { bestForWelding, lightestWay, piecesIn, waysOf, type Step, type Ways } from './ways.js';
import type { CentreLineRow } from '../../geom/centre-line.js';
import type { NoWeld, PrimaryToCut } from './primary.js';
import type { CuttingRules } from './rules.js';

/** How few welds a primary can have, and one way to cut it so. */
export interface FewestWelds {
  /** One weld a piece: those between pieces, and the one at the flange. The collector's is not counted. */
  readonly welds: number;
  readonly way: readonly Step[];
  readonly ways: Ways;
}

export interface WeldOptions {
  /** Stretches (stations, mm) in which no weld may stand: slip joint, wrench spaces, keep-outs. */
  readonly noWeld?: readonly NoWeld[];
  /** How far the tube reaches on into a socket or through the flange, mm. */
  readonly intoFlange?: number;
  /** What an oblique first cut needs beyond the axis, mm. */
  readonly oblique?: number;
}

/**
 * The fewest welds of one primary, exact: dynamic programming over what each bend piece keeps of its legs.
 * Among plans of equal count welds in straights are preferred to welds at or in arcs, then little insert.
 * @param rows straights and bends in turn, mm and rad
 * @returns undefined where the rack gives no way to make it (`whyNot` says why)
 * @see brute force over all cuts and weld places, tests/design/pieces/fewest-welds.test.ts
 */
export function fewestWelds(
  rows: readonly CentreLineRow[],
  rules: CuttingRules,
  options: WeldOptions = {},
): FewestWelds | undefined {
  return fewestWeldsOf(
    {
      id: '',
      path: '',
      rows,
      noWeld: options.noWeld ?? [],
      intoFlange: options.intoFlange ?? 0,
      oblique: options.oblique ?? 0,
      slip: 0,
    },
    rules,
  );
}

/** The same for a primary as it is to be cut. */
export function fewestWeldsOf(primary: PrimaryToCut, rules: CuttingRules): FewestWelds | undefined {
  const { ways, stuckAt } = waysOf(primary, rules);
  if (stuckAt !== undefined) return undefined;
  const way = lightestWay(ways, bestForWelding);
  return way && { welds: piecesIn(way), way, ways };
}
