import { degrees, radians, tidy } from '../../base/numbers.js';
import type { Outcome, Problem } from '../../base/problems.js';
import { suggest } from '../../base/suggest.js';
import { tolerance } from '../../base/tolerance.js';
import type { CentreLine } from '../../geom/centre-line.js';
import type { AsCut, Job } from '../../job/job.js';
import { bringNearest } from './as-cut-miss.js';
import { cutAnew, type AnewOptions } from './cut-anew.js';
import type { CutList, PieceRow } from './cut-list.js';
import { cuttingRules } from './rules.js';

/**
 * A cut list with the corrections of the bench worked in: what is good or came out otherwise is taken as made,
 * what is scrap is cut anew from what is left.
 * @param list the plan that the pieces were cut by
 * Lengths and turns of what is not cut yet are chosen so that a primary with other measures ends nearest its slot.
 * @param options `slip`: what the last straight keeps for its slip joint, mm
 * @param lineOf each primary as routed
 * @returns errors where a correction names no piece, or a measure that its piece has not
 */
export function correctCutList(
  asCut: Job['asCut'],
  list: CutList,
  options: AnewOptions & { readonly slip: number },
  lineOf: (primary: string) => CentreLine | undefined,
): Outcome<CutList> {
  const problems = Object.entries(asCut).flatMap(([id, one]) => faultOf(id, one, list));
  if (problems.length > 0) return { value: undefined, problems };
  const spoilt = new Set(Object.keys(asCut).filter((id) => asCut[id] === 'scrap'));
  const marked: CutList = {
    ...list,
    pieces: list.pieces.map((piece): PieceRow => {
      const one = asCut[piece.id];
      return one === undefined || one === 'scrap'
        ? piece
        : { ...piece, asCut: one === 'good' ? 'good' : 'as cut' };
    }),
  };
  const anew = spoilt.size === 0 ? { list: marked, problems: [] } : cutAnew(marked, spoilt, options);
  if (anew.list === undefined) return { value: undefined, problems: anew.problems };
  const rules = cuttingRules(options.rack, options.choices);
  let value = anew.list;
  const misses: Problem[] = [];
  for (const primary of new Set(list.pieces.map((piece) => piece.primary))) {
    const as = new Map<string, AsCut>();
    for (const piece of list.pieces) {
      const one = asCut[piece.id];
      if (piece.primary === primary && typeof one === 'object') as.set(piece.id, one);
    }
    const line = lineOf(primary);
    if (as.size === 0 || line === undefined) continue;
    const nearest = bringNearest(value, primary, line, as, { ...rules, slip: options.slip });
    value = nearest.list;
    misses.push(nearest.problem);
  }
  const planned = list.pieces.filter(({ id }) => asCut[id] !== undefined);
  return { value: { ...value, planned }, problems: [...anew.problems, ...misses] };
}

/** What is wrong with one correction. */
function faultOf(id: string, one: Job['asCut'][string], list: CutList): readonly Problem[] {
  const piece = list.pieces.find((each) => each.id === id);
  const error = (told: Pick<Problem, 'what' | 'why' | 'fix'>, key = ''): readonly Problem[] => [
    { code: 'pieces/as-cut', severity: 'error', ...told, place: { path: `as_cut.${id}${key}` } },
  ];
  if (piece === undefined) {
    const names = list.pieces.map((each) => each.id);
    const near = suggest(id, names) ?? names[0] ?? 'P1-1';
    return error({
      what: `there is no piece ${id} among the ${names.length} of the cut list`,
      why: 'nobody can tell which piece came out otherwise',
      fix: `write the name as the cut list without corrections has it, such as ${near}`,
    });
  }
  if (typeof one === 'string') return [];
  const has: Record<keyof AsCut, boolean> = {
    angle: piece.kind === 'bend',
    legUp: piece.kind === 'bend' && piece.legUp > tolerance.samePoint,
    legDown: piece.kind === 'bend' && piece.legDown > tolerance.samePoint,
    length: piece.kind === 'straight',
  };
  const keys = { angle: 'angle', legUp: 'leg_up', legDown: 'leg_down', length: 'length' } as const;
  const mine = (Object.keys(has) as (keyof AsCut)[]).filter((key) => has[key]).map((key) => keys[key]);
  const given = (Object.keys(has) as (keyof AsCut)[]).filter((key) => one[key] !== undefined);
  const wrong = given.find((key) => !has[key]);
  const what = piece.kind === 'bend' ? 'a bend' : 'a straight';
  if (wrong !== undefined)
    return error(
      {
        what: `${id} is ${what} and has no ${keys[wrong]}; it has ${mine.join(', ')}`,
        why: 'a measure that the piece has not would be passed over in silence',
        fix: `enter ${mine[0]} of ${id}, or take out this 1 key`,
      },
      `.${keys[wrong]}`,
    );
  const over = given.find((key) => (one[key] ?? 0) > mostOf(piece, key, list));
  if (over !== undefined) {
    const [unit, say] = over === 'angle' ? ['deg', degrees] : ['mm', (x: number): number => x];
    const most = tidy(say(mostOf(piece, over, list)), 1);
    return error(
      {
        what: `${keys[over]} of ${id} is ${tidy(say(one[over] ?? 0), 1)} ${unit}, and ${piece.stock}, which it was sawn from, gives ${most} ${unit} at most`,
        why: 'no piece comes out longer than its stock: a figure is wrong, or it is another piece',
        fix: `measure again, and write ${most} or less`,
      },
      `.${keys[over]}`,
    );
  }
  if (given.length === 0)
    return error({
      what: `as_cut.${id} says 0 measures`,
      why: 'nobody can tell how the piece came out',
      fix: `write 1 of ${mine.join(', ')} as measured, or good, or scrap`,
    });
  return [];
}

/** How much a rack's own figures may be off: mm, and rad. Common practice, no source. */
const RACK_OFF = { length: 10, angle: radians(10) };

/** The most that a measure of a piece can come to, by the stock it was sawn from. */
function mostOf(piece: PieceRow, key: keyof AsCut, { stock }: CutList): number {
  const item = stock.find(({ id }) => id === piece.stock);
  if (item === undefined) return Infinity;
  if (item.kind === 'straight') return item.length + RACK_OFF.length;
  if (key === 'angle') return item.angle + RACK_OFF.angle;
  return Math.max(...item.legs) + RACK_OFF.length;
}
