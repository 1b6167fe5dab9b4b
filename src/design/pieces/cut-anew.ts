import type { Problem } from '../../base/problems.js';
import type { CentreLineRow } from '../../geom/centre-line.js';
import type { Rack } from '../../job/rack.js';
import type { Effort } from './cheapest-stock.js';
import { chooseStock } from './choose-stock.js';
import type { BuyRow, CutList, PieceRow, StockItem, WeldRow } from './cut-list.js';
import { layOut } from './lay-out.js';
import type { Solve } from './linear-program.js';
import { obliqueOf } from './marks.js';
import type { NoWeld, PrimaryToCut } from './primary.js';
import { rackAfter } from './rack-after.js';
import { cuttingRules, type CuttingChoices } from './rules.js';

/** What cutting anew needs beside the cut list. */
export interface AnewOptions {
  readonly rack: Rack;
  readonly noWeldOf: (primary: string) => readonly NoWeld[];
  readonly choices?: CuttingChoices | undefined;
  readonly solve?: Solve | undefined;
  readonly effort?: Effort | undefined;
}

/**
 * Cuts spoilt pieces anew from what is left: the rack less the stock that is used, and the leftovers of that
 * stock. All other pieces stay as they are. A piece that no stock gives whole is welded from several.
 */
export function cutAnew(
  list: CutList,
  spoilt: ReadonlySet<string>,
  options: AnewOptions,
): { readonly list: CutList | undefined; readonly problems: readonly Problem[] } {
  const { rack, choices, solve, effort } = options;
  const after = rackAfter(rack, list, choices);
  const rules = cuttingRules(after.rack, choices);
  const lost = list.pieces.filter(({ id }) => spoilt.has(id));
  const tasks = lost.map((piece) => taskOf(piece, list.od, options.noWeldOf(piece.primary)));
  const { chosen, problems } = chooseStock(tasks, rules, solve, effort);
  if (chosen === undefined)
    return {
      list: undefined,
      problems: problems.map((problem) => ({
        ...problem,
        place: { path: (problem.place?.path ?? 'as_cut').replace(/\.\d+$/, '') },
      })),
    };
  const faceOf = (id: string): PieceRow['face'] => lost.find((piece) => piece.id === id)?.face;
  const made = layOut(chosen, rules, rack.tube, (id) => ({ face: faceOf(id), collectorWeld: false }));

  // Stock is numbered on from what there is.
  const names = new Map<string, string>();
  for (const kind of ['bend', 'straight'] as const) {
    const before = list.stock.filter((item) => item.kind === kind).length;
    made.stock
      .filter((item) => item.kind === kind)
      .forEach(({ id }, i) => names.set(id, `${kind === 'bend' ? 'B' : 'T'}${before + i + 1}`));
  }
  const named = (stock: string): string => names.get(stock) ?? stock;
  const taken = new Set(made.stock.flatMap(({ rack: path }) => after.kept.get(path) ?? []));
  const welds: WeldRow[] = [];
  const anew = new Map(
    lost.map((piece) => [piece.id, inItsPlace(piece, made, named, list.welds.length, welds)]),
  );
  const { totals } = list;
  const mass = [...list.pieces.filter(({ id }) => !spoilt.has(id)), ...made.pieces].reduce<
    number | undefined
  >((sum, one) => (sum === undefined || one.mass === undefined ? undefined : sum + one.mass), 0);
  return {
    list: {
      ...list,
      stock: [...list.stock, ...made.stock.map((item): StockItem => ({ ...item, id: named(item.id) }))],
      pieces: list.pieces.flatMap((piece) => anew.get(piece.id) ?? [piece]),
      welds: [...list.welds, ...welds],
      scrap: lost.map(({ id, stock }) => ({ id, stock })),
      leftovers: [
        ...list.leftovers.filter((left) => !taken.has(left)),
        ...made.leftovers.map((left) => ({ ...left, stock: named(left.stock) })),
      ],
      buy: together([...list.buy, ...made.buy.filter(({ rack: path }) => !after.kept.has(path))]),
      totals: {
        welds: totals.welds + welds.length,
        cost: totals.cost + made.totals.cost,
        bound:
          totals.bound === undefined || made.totals.bound === undefined
            ? undefined
            : totals.bound + made.totals.bound,
        proved: totals.proved && made.totals.proved,
        mass,
      },
    },
    problems,
  };
}

/** A spoilt piece as a short primary of its own. */
function taskOf(piece: PieceRow, od: number, noWeld: readonly NoWeld[]): PrimaryToCut {
  const { id, intoFlange, stations } = piece;
  const rows: CentreLineRow[] =
    piece.kind === 'straight'
      ? [{ straight: piece.length - intoFlange }]
      : [
          { straight: Math.max(0, piece.legUp - intoFlange) },
          { clr: piece.clr, angle: piece.angle, clock: piece.clock },
          { straight: piece.legDown },
        ];
  const start = Math.max(0, stations[0]);
  return {
    id,
    rows,
    path: `as_cut.${id}`,
    noWeld: noWeld.map(([from, to, why]) => [from - start, to - start, why]),
    intoFlange,
    oblique: obliqueOf(piece, od),
    slip: 0,
  };
}

/** The new pieces where the spoilt one stood, welded to its neighbours; the welds between them are new. */
function inItsPlace(
  piece: PieceRow,
  made: CutList,
  named: (stock: string) => string,
  weldsBefore: number,
  welds: WeldRow[],
): readonly PieceRow[] {
  const own = made.pieces.filter(({ primary }) => primary === piece.id);
  const start = Math.max(0, piece.stations[0]);
  let weldUp = piece.weldUp;
  return own.map((one, i): PieceRow => {
    const joint = own.length > i + 1 ? made.welds.find(({ id }) => id === one.weldDown) : undefined;
    const weld = joint && {
      ...joint,
      id: `W${weldsBefore + welds.length + 1}`,
      primary: piece.primary,
      at: joint.at + start,
    };
    if (weld) welds.push(weld);
    const row: PieceRow = {
      ...one,
      id: own.length === 1 ? piece.id : `${piece.id}${'abcdefgh'.charAt(i)}`,
      primary: piece.primary,
      stations: [one.stations[0] + start, one.stations[1] + start],
      stock: named(one.stock),
      weldUp,
      weldDown: weld?.id ?? piece.weldDown,
      asCut: 'cut anew',
    };
    weldUp = weld?.id;
    return row;
  });
}

function together(rows: readonly BuyRow[]): BuyRow[] {
  const found = new Map<string, BuyRow>();
  for (const row of rows)
    found.set(row.rack, { ...row, count: row.count + (found.get(row.rack)?.count ?? 0) });
  return [...found.values()];
}
