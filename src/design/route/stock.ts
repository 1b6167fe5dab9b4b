import { type Rack } from '../../job/rack.js';

/** What the search must know of the bends on the rack: radius, how far they turn, how long their legs are. */
export interface BendStock {
  /** Centre-line radius, mm. */
  readonly clr: number;
  /** Largest angle that one bend of this radius makes, rad. */
  readonly largestAngle: number;
  /** Least angle of a stock bend of this radius, rad: only at its full angle does a bend keep both legs. */
  readonly leastStockAngle: number;
  /** Longest leg that a piece of it can keep, mm. */
  readonly leg: number;
}

/** One entry a radius, least radius first: its angles, its longest leg less the raw trim. */
export function bendStockOf({ bends, saw }: Pick<Rack, 'bends' | 'saw'>): readonly BendStock[] {
  const clrs = [...new Set(bends.map((bend) => bend.clr))].sort((a, b) => a - b);
  return clrs.map((clr) => {
    const of = bends.filter((bend) => bend.clr === clr);
    const angles = of.map((bend) => bend.angle);
    return {
      clr,
      largestAngle: Math.max(...angles),
      leastStockAngle: Math.min(...angles),
      leg: Math.max(0, ...of.flatMap((bend) => bend.legs).map((leg) => leg - saw.rawTrim)),
    };
  });
}
