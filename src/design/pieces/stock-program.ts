import { tolerance } from '../../base/tolerance.js';
import type { LinearProgram, ProgramRow, Unknown } from './linear-program.js';
import type { NeedTable } from './needs.js';
import { stickLength, type CuttingRules } from './rules.js';
import { piecesOf, type StockCut } from './stock-cuts.js';
import { floorTerms, type FromLeg, type StickFloor } from './stick-floor.js';
import { END, type Step, type Ways } from './ways.js';

export interface StockProgramInput {
  readonly primaries: readonly Ways[];
  /** The steps that may be chosen. */
  readonly steps: ReadonlySet<Step>;
  readonly needs: NeedTable;
  readonly cuts: readonly StockCut[];
  readonly rules: CuttingRules;
  readonly floors: readonly StickFloor[];
  /** At most so many pieces in all; needed only where limited stock could save welds. */
  readonly mostPieces: number | undefined;
  /** Where given: not the least cost is asked, but the fewest welds at or in arcs at no more than this cost. */
  readonly mostCost?: number;
}

/** The program, and which of its unknowns and rows mean what. */
export interface StockProgram {
  readonly program: LinearProgram;
  readonly stepAt: ReadonlyMap<Step, number>;
  /** Unknown of the first cut; the others follow. */
  readonly cutsFrom: number;
  readonly sticksFrom: number;
  /** Inserts sawn from a spare leg of a given length. */
  readonly fromLegs: readonly FromLeg[];
  /** Pieces that no stock was found for: by need, above 0 where something must be bought. */
  readonly lackingFrom: number | undefined;
  readonly rowOfNeed: ReadonlyMap<number, number>;
  readonly rowOfLeg: ReadonlyMap<number, number>;
  readonly rowOfStock: ReadonlyMap<string, number>;
}

/** More than any rack costs: what a piece without stock is charged, so that it is made only if it must. */
const NO_STOCK = 1e5;

/**
 * The choice of ways and stock as a linear program with whole numbers: one way through each primary; every
 * piece asked for is sawn from one stock bend; inserts from spare legs or from sticks by volume; no more of
 * anything than the rack has.
 */
export function stockProgram(input: StockProgramInput): StockProgram {
  const { primaries, needs, cuts, rules } = input;
  const unknowns: Unknown[] = [];
  const rows: ProgramRow[] = [];
  const unknown = (cost: number, most = Infinity): number => unknowns.push({ cost, most, whole: true }) - 1;
  const { mostCost } = input;
  const prices: [number, number][] = [];
  const priced = (price: number, most = Infinity): number => {
    const at = unknown(mostCost === undefined ? price : 0, most);
    prices.push([at, price]);
    return at;
  };
  const row = (terms: ProgramRow['terms'], sense: ProgramRow['sense'], right: number): number =>
    rows.push({ terms, sense, right }) - 1;

  const stepAt = new Map<Step, number>();
  for (const step of primaries.flatMap(({ steps }) => steps.flat()))
    if (input.steps.has(step)) stepAt.set(step, unknown(mostCost === undefined ? 0 : step.arcWelds));
  const cutsFrom = unknowns.length;
  for (const cut of cuts) priced(cut.stock.price);
  const sticksFrom = unknowns.length;
  for (const { price, quantity } of rules.straights) priced(price, quantity);

  for (const { steps } of primaries) throughRows(steps, stepAt, row);

  const wanted = new Map<number, [number, number][]>();
  const note = (need: number, at: number, sign: number): void => {
    const terms = wanted.get(need);
    if (terms) terms.push([at, sign]);
    else wanted.set(need, [[at, sign]]);
  };
  for (const [step, at] of stepAt) for (const need of needs.of(step)) note(need, at, -1);
  const limited = rules.bends.some(({ quantity }) => quantity < Infinity);
  const lackingFrom = limited ? unknowns.length : undefined;
  cuts.forEach((cut, i) => {
    for (const { index } of piecesOf(cut)) note(index, cutsFrom + i, 1);
  });
  const rowOfNeed = new Map<number, number>();
  if (limited) for (let i = 0; i < needs.list.length; i++) unknown(NO_STOCK);
  for (const [need, terms] of wanted) {
    const lacking: [number, number][] = lackingFrom === undefined ? [] : [[lackingFrom + need, 1]];
    rowOfNeed.set(need, row([...terms, ...lacking], '=', 0));
  }

  const rowOfStock = new Map<string, number>();
  for (const { path, quantity } of rules.bends) {
    if (quantity === Infinity) continue;
    const of = cuts.flatMap((cut, i): [number, number][] =>
      cut.stock.path === path ? [[cutsFrom + i, 1]] : [],
    );
    if (of.length > 0) rowOfStock.set(path, row(of, '<=', quantity));
  }

  const { fromLegs, rowOfLeg } = legRows(cuts, cutsFrom, stepAt, unknown, row);
  stickRows(rules, sticksFrom, stepAt, fromLegs, row);
  for (const floor of input.floors) {
    const sticks = rules.straights.map((stick, i) => [sticksFrom + i, -stick.price] as const);
    const terms = floorTerms(floor, primaries, stepAt, fromLegs);
    row([...terms, ...sticks], '<=', floor.cost * (floor.inserts.length - 1));
  }
  if (input.mostPieces !== undefined)
    row(
      [...stepAt].map(([step, at]) => [at, step.pieces] as const),
      '<=',
      input.mostPieces,
    );
  if (mostCost !== undefined) row(prices, '<=', mostCost);
  const program = { unknowns, rows };
  return { program, stepAt, cutsFrom, sticksFrom, fromLegs, lackingFrom, rowOfNeed, rowOfLeg, rowOfStock };
}

type AddRow = (terms: ProgramRow['terms'], sense: ProgramRow['sense'], right: number) => number;
type FromLegs = readonly FromLeg[];

/** One way through a primary: one step begins at the flange, and every state is left as often as entered. */
function throughRows(steps: Ways['steps'], stepAt: ReadonlyMap<Step, number>, row: AddRow): void {
  const start: [number, number][] = [];
  steps.forEach((here, i) => {
    const states = new Map<string, [number, number][]>();
    const note = (state: string, at: number, sign: number): void => {
      states.set(state, [...(states.get(state) ?? []), [at, sign]]);
    };
    for (const step of here) {
      const at = stepAt.get(step);
      if (at === undefined) continue;
      if (i === 0) start.push([at, 1]);
      if (step.to !== END) note(step.to, at, 1);
    }
    for (const step of steps[i + 1] ?? []) {
      const at = stepAt.get(step);
      if (at !== undefined) note(step.from, at, -1);
    }
    for (const terms of states.values()) row(terms, '=', 0);
  });
  row(start, '=', 1);
}

/** Inserts from spare legs: no more than there are legs of that length. */
function legRows(
  cuts: readonly StockCut[],
  cutsFrom: number,
  stepAt: ReadonlyMap<Step, number>,
  unknown: (cost: number, most?: number) => number,
  row: AddRow,
): { readonly fromLegs: FromLegs; readonly rowOfLeg: ReadonlyMap<number, number> } {
  const supply = new Map<number, [number, number][]>();
  cuts.forEach(({ spare }, i) => {
    for (const leg of new Set(spare.filter((length) => length > 0))) {
      const count = spare.filter((length) => length === leg).length;
      const terms = supply.get(leg);
      if (terms) terms.push([cutsFrom + i, -count]);
      else supply.set(leg, [[cutsFrom + i, -count]]);
    }
  });
  const fromLegs: FromLeg[] = [];
  for (const [step, at] of stepAt)
    step.share.inserts.forEach((insert, part) => {
      const mine = [...supply.keys()]
        .filter((leg) => leg >= insert - tolerance.samePoint)
        .map((leg) => ({ step, part, leg, unknown: unknown(0) }));
      if (mine.length === 0) return;
      row([...mine.map((one) => [one.unknown, 1] as const), [at, -1]], '<=', 0);
      fromLegs.push(...mine);
    });
  const rowOfLeg = new Map<number, number>();
  for (const [leg, terms] of supply) {
    const used = fromLegs.filter((one) => one.leg === leg).map((one) => [one.unknown, 1] as const);
    if (used.length > 0) rowOfLeg.set(leg, row([...used, ...terms], '<=', 0));
  }
  return { fromLegs, rowOfLeg };
}

/** For each step its weight when its inserts come from sticks: on the step, and off again for inserts from legs. */
function fromSticks(
  weight: (insert: number) => number,
  stepAt: ReadonlyMap<Step, number>,
  fromLegs: FromLegs,
): [number, number][] {
  const whole = (step: Step): number => step.share.inserts.reduce((sum, insert) => sum + weight(insert), 0);
  return [
    ...[...stepAt].map(([step, at]): [number, number] => [at, whole(step)]),
    ...fromLegs.map(({ step, part, unknown }): [number, number] => {
      return [unknown, -weight(step.share.inserts[part] ?? 0)];
    }),
  ].filter(([, sum]) => sum !== 0);
}

/**
 * Inserts fit into the sticks by volume; those too long for the shorter sticks into the longer ones. Where
 * there is one kind of stick only, whole fractions of it are counted too: two inserts over half a stick need
 * two sticks (dual feasible functions of Fekete and Schepers, 2001).
 */
function stickRows(
  rules: CuttingRules,
  sticksFrom: number,
  stepAt: ReadonlyMap<Step, number>,
  fromLegs: FromLegs,
  row: AddRow,
): void {
  const gap = rules.straightGap;
  const rooms = rules.straights.map((stick) => stickLength(stick, rules.saw) + gap);
  const supply = (least: number): [number, number][] =>
    rooms.flatMap((room, i): [number, number][] => (room > least ? [[sticksFrom + i, -room]] : []));
  const floors = [0, ...new Set(rooms)];
  for (const floor of floors) {
    const terms = fromSticks(
      (insert) => (insert + gap > floor + tolerance.samePoint ? insert + gap : 0),
      stepAt,
      fromLegs,
    );
    if (terms.length > 0) row([...terms, ...supply(floor)], '<=', 0);
  }
  if (rooms.length !== 1) return;
  for (const parts of [1, 2, 3, 4, 5]) {
    const weight = (insert: number): number => {
      const share = ((insert + gap) / (rooms[0] ?? 1)) * (parts + 1);
      const whole = Math.round(share);
      return Math.abs(share - whole) < tolerance.samePoint ? share / (parts + 1) : Math.floor(share) / parts;
    };
    const terms = fromSticks(weight, stepAt, fromLegs);
    if (terms.length > 0) row([...terms, [sticksFrom, -1]], '<=', 0);
  }
}
