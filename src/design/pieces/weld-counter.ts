import { turnOf } from '../../base/numbers.js';
import { tolerance } from '../../base/tolerance.js';
import type { PrimaryToCut } from './primary.js';
import { insideArc, stockOf, WHOLE_WITHIN, type CuttingRules, type StockBend } from './rules.js';

/**
 * Counts the fewest welds of a primary: straights (mm), and for each bend its CLR (mm), angle (rad) and,
 * where bends may run on in one plane, clock (rad). Infinity where it cannot be made.
 */
export type WeldCounter = (
  straights: ArrayLike<number>,
  clrs: ArrayLike<number>,
  angles: ArrayLike<number>,
  clocks?: ArrayLike<number>,
) => number;

const slack = tolerance.samePoint;

/** How a tube begins at the flange: as `PrimaryToCut` has it, mm. */
export type AtFlange = Pick<PrimaryToCut, 'intoFlange' | 'oblique'>;

const squareAtFlange: AtFlange = { intoFlange: 0, oblique: 0 };

/** The ways to cut one bend: pieces, most and least leg upstream, most and least leg downstream. */
class Choices {
  count = 0;
  readonly rows: Float64Array;
  constructor(most: number) {
    this.rows = new Float64Array(5 * most);
  }
  add(pieces: number, up: number, upLeast: number, down: number, downLeast: number): void {
    this.rows.set([pieces, up, upLeast, down, downLeast], 5 * this.count++);
  }
}

/** What the bends so far may have left: most and least leg, and the fewest welds up to there. */
class States {
  count = 0;
  readonly rows: Float64Array;
  constructor(most: number) {
    this.rows = new Float64Array(3 * most);
  }
  add(leg: number, least: number, welds: number): void {
    for (let i = 0; i < this.count; i++) {
      if (this.rows[3 * i] !== leg || this.rows[3 * i + 1] !== least) continue;
      this.rows[3 * i + 2] = Math.min(this.rows[3 * i + 2] as number, welds);
      return;
    }
    const at = 3 * this.count++;
    this.rows[at] = leg;
    this.rows[at + 1] = least;
    this.rows[at + 2] = welds;
  }
}

/**
 * A quick counter for the inner loop of a search: the same count as `fewestWelds` where no stretch forbids
 * welds, in about a microsecond. Only the longest leg of each kind is looked at, as a longer one can always
 * be sawn shorter.
 * @param atFlange what the tube reaches on before the start of the route, and its oblique cut there
 */
export function weldCounter(rules: CuttingRules, atFlange: AtFlange = squareAtFlange): WeldCounter {
  const beyondFlange = atFlange.intoFlange + atFlange.oblique;
  const sunkFirst = beyondFlange + atFlange.oblique;
  const racks = new Map<number, readonly StockBend[]>();
  const rackOf = (clr: number): readonly StockBend[] => {
    const known = racks.get(clr);
    if (known) return known;
    const stock = stockOf(rules, clr);
    racks.set(clr, stock);
    return stock;
  };
  const { leastInsert, longestInsert } = rules;
  // Numbers are kept in buffers, large enough for the rack, so that counting makes no garbage.
  const most = 4 * rules.bends.length + 8;
  const choices = new Choices(most);
  let states = new States(most);
  let next = new States(most);

  /** Inserts for a straight between two legs, `sunk` of it at the flange; Infinity where it cannot be made. */
  const inserts = (s: number, a: number, aLeast: number, b: number, bLeast: number, sunk = 0): number => {
    const most = s - sunk - aLeast - bLeast;
    if (most < -slack) return Infinity;
    const least = s - Math.min(a, s) - Math.min(b, s);
    if (least <= slack) return 0;
    if (!(longestInsert >= leastInsert + sunk)) return Infinity;
    const count = least <= longestInsert ? 1 : Math.ceil((least - slack) / longestInsert);
    return count * leastInsert <= most + slack ? count : Infinity;
  };

  const count: WeldCounter = (straights, clrs, angles, clocks) => {
    const merged = clocks && inOnePlane(straights, clrs, angles, clocks, rackOf);
    if (merged) return count(merged.straights, merged.clrs, merged.angles);
    const bends = clrs.length;
    const first = (straights[0] as number) + beyondFlange;
    if (bends === 0) return first <= slack ? Infinity : inserts(first, 0, 0, 0, 0, sunkFirst);
    for (let i = 0; i < bends; i++) {
      const s = straights[i] as number;
      const clr = clrs[i] as number;
      listChoices(clr, angles[i] as number, rackOf(clr), rules, choices);
      next.count = 0;
      for (let c = 0; c < choices.count; c++) {
        const at = 5 * c;
        const up = choices.rows[at + 1] as number;
        const upLeast = choices.rows[at + 2] as number;
        let welds = i === 0 ? inserts(first, 0, 0, up, upLeast, sunkFirst) : Infinity;
        if (i > 0)
          for (let b = 0; b < 3 * states.count; b += 3) {
            const leg = states.rows[b] as number;
            const least = states.rows[b + 1] as number;
            const through = (states.rows[b + 2] as number) + inserts(s, leg, least, up, upLeast);
            if (through < welds) welds = through;
          }
        welds += choices.rows[at] as number;
        if (welds < Infinity) next.add(choices.rows[at + 3] as number, choices.rows[at + 4] as number, welds);
      }
      if (next.count === 0) return Infinity;
      [states, next] = [next, states];
    }
    const last = straights[bends] as number;
    let best = Infinity;
    for (let b = 0; b < 3 * states.count; b += 3) {
      const leg = states.rows[b] as number;
      const through = (states.rows[b + 2] as number) + inserts(last, leg, states.rows[b + 1] as number, 0, 0);
      if (through < best) best = through;
    }
    return best;
  };
  return count;
}

/** Lists the ways to cut one bend that no other way beats. */
function listChoices(
  clr: number,
  angle: number,
  stock: readonly StockBend[],
  rules: CuttingRules,
  choices: Choices,
): void {
  choices.count = 0;
  let longest = 0;
  let largest = 0;
  let holds = false;
  for (const { angle: own, room, usable } of stock) {
    if (room > largest) largest = room;
    if (room >= angle - tolerance.sameDirection) {
      holds = true;
      longest = Math.max(longest, usable[0], usable[1]);
    }
    if (Math.abs(own - angle) > WHOLE_WITHIN) continue;
    choices.add(1, usable[0], 0, usable[1], 0);
    if (usable[0] !== usable[1]) choices.add(1, usable[1], 0, usable[0], 0);
  }
  if (holds) {
    const lacking = Math.max(0, rules.leastInsideArc - insideArc(clr, rules.od, angle));
    if (longest > 0 && longest >= lacking) {
      choices.add(1, longest, lacking, 0, 0);
      choices.add(1, 0, 0, longest, lacking);
    }
    if (lacking <= slack) choices.add(1, 0, 0, 0, 0);
  } else if (choices.count === 0 && rules.splitInArc && largest > 0)
    listParted(clr, angle, largest, stock, rules, choices);
}

/** A bend over the largest stock angle, parted wherever one of its parts may win a longer leg. */
function listParted(
  clr: number,
  angle: number,
  largest: number,
  stock: readonly StockBend[],
  rules: CuttingRules,
  choices: Choices,
): void {
  const pieces = Math.ceil(angle / largest - tolerance.sameDirection);
  const least = rules.leastInsideArc / (clr - rules.od / 2) - tolerance.sameDirection;
  const legFor = (part: number): number => {
    let leg = 0;
    for (const s of stock)
      if (s.room >= part - tolerance.sameDirection) leg = Math.max(leg, s.usable[0], s.usable[1]);
    return leg;
  };
  const part = (first: number, last: number): void => {
    if (first >= least && last >= least && Math.max(first, last) <= largest + tolerance.sameDirection)
      choices.add(pieces, legFor(first), 0, legFor(last), 0);
  };
  part(angle / pieces, angle / pieces);
  if (pieces !== 2) return;
  part(least, angle - least);
  part(angle - least, least);
  for (const { room } of stock) {
    part(room, angle - room);
    part(angle - room, room);
  }
}

/** The same primary with bends that run on in one plane made one, or undefined where there are none. */
function inOnePlane(
  straights: ArrayLike<number>,
  clrs: ArrayLike<number>,
  angles: ArrayLike<number>,
  clocks: ArrayLike<number>,
  rackOf: (clr: number) => readonly StockBend[],
): { straights: number[]; clrs: number[]; angles: number[] } | undefined {
  const out = { straights: [straights[0] as number], clrs: [] as number[], angles: [] as number[] };
  for (let i = 0; i < clrs.length; i++) {
    const [clr, angle, clock] = [clrs[i] as number, angles[i] as number, turnOf(clocks[i] as number)];
    const both = angle + (out.angles.at(-1) ?? 0);
    const runsOn =
      i > 0 &&
      (straights[i] as number) <= slack &&
      Math.abs(clr - (out.clrs.at(-1) as number)) <= slack &&
      Math.min(clock, 2 * Math.PI - clock) <= tolerance.sameDirection &&
      both < Math.PI &&
      rackOf(clr).some((stock) => stock.room >= both);
    if (runsOn) {
      out.straights.pop();
      out.angles[out.angles.length - 1] = both;
    } else {
      out.clrs.push(clr);
      out.angles.push(angle);
    }
    out.straights.push(straights[i + 1] as number);
  }
  return out.clrs.length === clrs.length ? undefined : out;
}
