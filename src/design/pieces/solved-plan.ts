import type { ProgramSolution } from './linear-program.js';
import type { Need, NeedTable } from './needs.js';
import type { CuttingRules } from './rules.js';
import type { StockCut } from './stock-cuts.js';
import type { StepInsert } from './stick-floor.js';
import type { StockProgram } from './stock-program.js';
import { NO_STICKS, packSticks, type StickPlan } from './sticks.js';
import { costOf, type BendUse, type StockPlan } from './stock-plan.js';
import { piecesOfWay, type BendToCut, type InsertToCut, type PieceToCut } from './way-pieces.js';
import type { Step, Ways } from './ways.js';

/** A solution of the program as a plan, its sticks packed. */
export interface SolvedPlan {
  /** Absent where the rack has not enough sticks. */
  readonly plan: StockPlan | undefined;
  /** The inserts that come from sticks, and the least that those sticks cost: absent where not proved. */
  readonly stickInserts: readonly StepInsert[];
  readonly stickFloor: number | undefined;
}

export function planFromSolution(
  primaries: readonly Ways[],
  rules: CuttingRules,
  needs: NeedTable,
  cuts: readonly StockCut[],
  made: StockProgram,
  { values }: ProgramSolution,
): SolvedPlan {
  const chosen = (unknown: number): boolean => (values[unknown] ?? 0) > 0.5;
  const steps = [...made.stepAt].flatMap(([step, at]) => (chosen(at) ? [step] : []));
  const inPlan = new Set(steps);
  const ways = primaries.map((one) =>
    one.steps.map((here) => here.find((step) => inPlan.has(step))).filter((step) => step !== undefined),
  );
  const pieces = ways.flatMap((way, i) => piecesOfWay(i, primaries[i] as Ways, way));
  const byNeed = piecesByNeed(needs, ways, pieces);
  const take = (need: Need | undefined): BendToCut | undefined => need && byNeed.get(need.index);

  const uses = cuts.flatMap((cut, i) => {
    if (!chosen(made.cutsFrom + i)) return [];
    const middles = cut.middles.flatMap((need) => take(need) ?? []);
    const use: BendUse = {
      stock: cut.stock,
      endA: take(cut.endA),
      middles,
      endB: take(cut.endB),
      whole: take(cut.whole),
      inserts: [undefined, undefined],
    };
    return [{ use, spare: cut.spare }];
  });

  const fromLeg = new Set<InsertToCut>();
  const legs = uses.map(({ spare }) => [...spare] as [number, number]);
  const inLegs = uses.map((): [InsertToCut | undefined, InsertToCut | undefined] => [undefined, undefined]);
  for (const { step, part, leg, unknown } of made.fromLegs) {
    if (!chosen(unknown)) continue;
    const insert = insertsOf(pieces, ways, step)[part];
    for (const [i, ends] of legs.entries()) {
      const end = ends.indexOf(leg);
      if (end < 0 || insert === undefined || fromLeg.has(insert)) continue;
      ends[end] = 0;
      (inLegs[i] as (InsertToCut | undefined)[])[end] = insert;
      fromLeg.add(insert);
    }
  }
  const bends = uses.map(({ use }, i): BendUse => ({ ...use, inserts: inLegs[i] ?? use.inserts }));

  const inserts = pieces.filter((piece) => piece.kind === 'insert').filter((insert) => !fromLeg.has(insert));
  const stickInserts = steps.flatMap((step) =>
    insertsOf(pieces, ways, step).flatMap((insert, part) => (fromLeg.has(insert) ? [] : [{ step, part }])),
  );
  const packed = packSticks(
    inserts.map(({ length }) => length),
    rules,
  );
  if (packed.sticks === undefined) return { plan: undefined, stickInserts, stickFloor: floorOf(packed) };
  const sticks = packed.sticks.map(({ stock, inserts: of }) => {
    return { stock, inserts: of.flatMap((i) => inserts[i] ?? []) };
  });
  const plan: StockPlan = { ways, bends, sticks, cost: costOf(bends, sticks) };
  return { plan, stickInserts, stickFloor: floorOf(packed) };
}

const floorOf = ({ cost, proved }: StickPlan): number | undefined =>
  proved ? Math.min(cost, NO_STICKS) : undefined;

/** The inserts of a step, among the pieces of the chosen ways. */
function insertsOf(
  pieces: readonly PieceToCut[],
  ways: readonly (readonly Step[])[],
  step: Step,
): readonly InsertToCut[] {
  const primary = ways.findIndex((way) => way.includes(step));
  return pieces
    .filter((piece) => piece.kind === 'insert')
    .filter((insert) => insert.primary === primary && insert.straight === step.straight);
}

/** The pieces of the chosen ways, by what they need. */
function piecesByNeed(
  needs: NeedTable,
  ways: readonly (readonly Step[])[],
  pieces: readonly PieceToCut[],
): ReadonlyMap<number, BendToCut> {
  const found = new Map<number, BendToCut>();
  ways.forEach((way, primary) => {
    for (const step of way)
      needs.of(step).forEach((need, part) => {
        const piece = pieces.find(
          (one): one is BendToCut =>
            one.kind === 'bend' && one.primary === primary && one.bend === step.straight && one.part === part,
        );
        if (piece) found.set(need, piece);
      });
  });
  return found;
}
