import type { Rack } from '../../job/rack.js';
import { cuttingRules } from '../pieces/rules.js';

/** What the search must know of the bends on the rack: radius, angle, how long their legs are. */
export interface BendStock {
  /** Centre-line radius, mm. */
  readonly clr: number;
  /** Least angle of a stock bend of this radius, rad: only at its full angle does a bend keep both legs. */
  readonly leastStockAngle: number;
  /** Longest leg that a piece of it can keep, mm. */
  readonly leg: number;
}

/** One entry a radius, least radius first: its least angle, its longest leg less the raw trim. */
export function bendStockOf(rack: Rack): readonly BendStock[] {
  const { bends } = cuttingRules(rack);
  const clrs = [...new Set(bends.map((bend) => bend.clr))].sort((a, b) => a - b);
  return clrs.map((clr) => {
    const of = bends.filter((bend) => bend.clr === clr);
    return {
      clr,
      leastStockAngle: Math.min(...of.map(({ angle }) => angle)),
      leg: Math.max(...of.flatMap(({ usable }) => usable)),
    };
  });
}
