import { alone, type Crew } from './crew.js';
import { keptCandidate } from './kept-candidate.js';
import { BIN } from './may-be.js';
import { mostTogether, type PairProof } from './prove-pairs.js';
import type { RouteProblem } from './problem.js';
import { axesMeet, boundFrom, leastWeldsOf, noBound, type WeldBound } from './weld-bound.js';

/** Fewest welds, proved, by bin of lengths, port and slot. */
type Fewest = readonly (readonly (readonly number[])[])[];

/** A bound proved port by port, and how to sharpen it. */
export interface ProvedBound extends WeldBound {
  /**
   * The same, sharpened by how many primaries of the fewest welds there can be together.
   * @param known welds of an answer that is known: what is not below them need not be proved higher
   */
  readonly together: (pairs: PairProof, known?: number) => WeldBound;
}

/**
 * A lower bound on welds, proved: where every port and slot may have a two-bend primary of the fewest welds, by
 * length; all else takes the welds of three bends.
 * @param finest half width (mm) of the cells that are let live
 */
export function proveBound(problem: RouteProblem, finest: number, crew: Crew = alone(problem)): ProvedBound {
  if (problem.limits.anglesLeftOut) return { ...noBound(problem), together: () => noBound(problem) };
  const { window } = problem.limits;
  const bins = Math.floor((window.to - window.from) / BIN) + 1;
  const least = leastWeldsOf(problem);
  const fewest = Array.from({ length: bins }, () =>
    problem.starts.map(() => problem.slots.map(() => least(3))),
  );
  const each = problem.starts.flatMap((_, start) => problem.slots.map((_, slot) => ({ start, slot })));
  const free = each.filter(({ start }) => problem.kept[start] === undefined);
  const mayBe = crew.run(
    'mayBe',
    free.map((one) => ({ ...one, bins, finest })),
  );
  let meet = false;
  free.forEach(({ start, slot }, n) => {
    const fewer = axesMeet(problem, start, slot);
    meet ||= fewer;
    fewest.forEach((of, bin) => {
      const row = of[start] as number[];
      // What was not looked at may be.
      if (mayBe[n]?.[bin] !== 0) row[slot] = least(2);
      if (fewer) row[slot] = least(0);
    });
  });
  for (const { start, slot } of each) {
    const kept = keptCandidate(problem, start);
    if (kept)
      for (const of of fewest) (of[start] as number[])[slot] = kept.slot === slot ? kept.welds : Infinity;
  }
  const plain = boundFrom(problem, fewest, BIN);
  const alike = !meet && problem.kept.every((one) => one === undefined);
  return {
    ...plain,
    together: (pairs, known = Infinity) =>
      alike ? provedTogether(problem, fewest, plain, { pairs, known, crew }) : plain,
  };
}

function provedTogether(
  problem: RouteProblem,
  fewest: Fewest,
  plain: WeldBound,
  { pairs, known, crew }: { readonly pairs: PairProof; readonly known: number; readonly crew: Crew },
): WeldBound {
  const { from } = problem.limits.window;
  const least = leastWeldsOf(problem);
  const inQuestion = fewest.map((_, bin) => plain.at(from + (bin + 0.5) * BIN) < known);
  const mayBe = (i: number, j: number, bin: number): boolean =>
    inQuestion[bin] === true && fewest[bin]?.[i]?.[j] === least(2);
  const together = mostTogether(problem, { from, width: BIN, count: fewest.length, mayBe }, pairs, crew);
  const count = problem.starts.length;
  return boundFrom(problem, fewest, BIN, (bin) =>
    inQuestion[bin] ? count * least(3) - (together[bin] as number) * (least(3) - least(2)) : 0,
  );
}
