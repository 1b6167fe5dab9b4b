import { turnOf } from '../../base/numbers.js';
import { tolerance } from '../../base/tolerance.js';
import { materialOf } from '../../job/tables/materials.js';
import type { Tube } from '../../job/job.js';
import { ellipseLength } from './seam.js';
import type { ChosenStock } from './choose-stock.js';
import type { BuyRow, CutList, PieceRow, WeldRow } from './cut-list.js';
import { clockArc, setBack, shorterWay, tubeMass } from './marks.js';
import type { CuttingRules } from './rules.js';
import { layOutBend, layOutStick, type Layout, type PlacedBend, type PlacedInsert } from './stock-layout.js';
import { piecesOfWay, type PieceToCut } from './way-pieces.js';
import type { Ways } from './ways.js';

/** How a primary leaves the flange and meets the collector. */
export interface Ends {
  /** Lean of the tube from square to the face, and the clock of its long side; undefined where it is square. */
  readonly face: { readonly lean: number; readonly toward: number } | undefined;
  /** Whether it is welded at the collector. */
  readonly collectorWeld: boolean;
}

interface Numbers {
  weld: number;
  readonly placed: ReadonlyMap<string, PlacedBend | PlacedInsert>;
  readonly rules: CuttingRules;
  readonly tube: Tube;
}

/** Writes out a chosen plan: stock, pieces with their marks, welds, leftovers, what to buy. */
export function layOut(
  chosen: ChosenStock,
  rules: CuttingRules,
  tube: Tube,
  endsOf: (primary: string) => Ends,
): CutList {
  const { plan } = chosen;
  const byPrimary = chosen.primaries.map((ways, i) => piecesOfWay(i, ways, plan.ways[i] ?? []));
  const layouts = [
    ...plan.bends.map((use, i) => layOutBend(use, `B${i + 1}`, rules)),
    ...plan.sticks.map((use, i) => layOutStick(use, `T${i + 1}`, rules)),
  ];
  const placed = new Map<string, PlacedBend | PlacedInsert>();
  for (const layout of layouts) for (const [piece, where] of layout.placed) placed.set(nameOf(piece), where);
  const numbers: Numbers = { weld: 0, placed, rules, tube };
  const made = chosen.primaries.map((ways, i) =>
    primaryRows(ways, byPrimary[i] ?? [], endsOf(ways.primary.id), numbers),
  );
  const pieces = made.flatMap((one) => one.pieces);
  const masses = pieces.map(({ mass }) => mass);
  return {
    saw: rules.saw,
    od: rules.od,
    stock: layouts.map(({ item }) => item),
    pieces,
    welds: made.flatMap((one) => one.welds),
    begins: Object.fromEntries(
      chosen.primaries.flatMap(({ primary: { id, begins } }) => (begins === undefined ? [] : [[id, begins]])),
    ),
    leftovers: layouts.flatMap(({ leftovers }) => leftovers),
    buy: buyRows(layouts),
    totals: {
      welds: chosen.welds,
      cost: plan.cost,
      bound: chosen.bound,
      proved: chosen.proved,
      mass: masses.reduce<number | undefined>(
        (sum, mass) => (sum === undefined || mass === undefined ? undefined : sum + mass),
        0,
      ),
    },
  };
}

/** Pieces are listed anew by each reader of a plan: this tells them apart. */
const nameOf = (piece: PieceToCut): string =>
  piece.kind === 'bend'
    ? `${piece.primary} bend ${piece.bend} ${piece.part}`
    : `${piece.primary} straight ${piece.straight} ${piece.part}`;

function buyRows(layouts: readonly Layout[]): BuyRow[] {
  const counts = new Map<string, BuyRow>();
  for (const { item } of layouts) {
    const count = (counts.get(item.rack)?.count ?? 0) + 1;
    counts.set(item.rack, { rack: item.rack, count, price: item.price });
  }
  return [...counts.values()];
}

/** What touches a joint: the end of an arc, or a straight. */
const endsInArc = (piece: PieceToCut, side: 'up' | 'down'): boolean =>
  piece.kind === 'bend' && (side === 'up' ? piece.legUp : piece.legDown) <= tolerance.samePoint;

function weldKind(before: PieceToCut, behind: PieceToCut): WeldRow['kind'] {
  if (before.kind === 'bend' && behind.kind === 'bend' && before.bend === behind.bend) return 'in-arc';
  return endsInArc(before, 'down') || endsInArc(behind, 'up') ? 'arc-end' : 'straight';
}

function primaryRows(
  { primary, course }: Ways,
  cut: readonly PieceToCut[],
  ends: Ends,
  numbers: Numbers,
): { readonly pieces: readonly PieceRow[]; readonly welds: readonly WeldRow[] } {
  const { rules, tube } = numbers;
  const { id, intoFlange, oblique } = primary;
  const seam = Math.PI * rules.od;
  const welds: WeldRow[] = [];
  const weld = (at: number, kind: WeldRow['kind'], length = seam): string => {
    const row: WeldRow = { id: `W${++numbers.weld}`, primary: id, at, kind, length };
    welds.push(row);
    return row.id;
  };
  const flangeSeam = ends.face ? ellipseLength(rules.od / 2 / Math.cos(ends.face.lean), rules.od / 2) : seam;
  let weldUp = weld(0, primary.onBuilt === true ? 'straight' : 'flange', flangeSeam);
  let at = -intoFlange;
  const pieces = cut.map((piece, i): PieceRow => {
    const first = i === 0;
    const next = cut[i + 1];
    const spare = first ? oblique : 0;
    const legUp = piece.kind === 'bend' ? piece.legUp - spare : 0;
    const length =
      piece.kind === 'bend' ? legUp + piece.clr * piece.angle + piece.legDown : piece.length - spare;
    const from = at;
    at += length;
    const joint = next ? weld(at, weldKind(piece, next)) : undefined;
    const weldDown = joint ?? (ends.collectorWeld ? weld(at, 'collector') : undefined);
    const density = materialOf(tube.material)?.density;
    const common = {
      id: `${id}-${i + 1}`,
      primary: id,
      stations: [from, at] as const,
      length,
      weldUp,
      weldDown,
      mass: density === undefined ? undefined : tubeMass(tube.od, tube.wall, length, density),
      intoFlange: first ? intoFlange : 0,
      face: first ? ends.face : undefined,
    };
    weldUp = weldDown ?? '';
    return rowOf(
      piece,
      common,
      legUp,
      course.bends[piece.kind === 'bend' ? piece.bend : 0]?.clock ?? 0,
      numbers,
    );
  });
  return { pieces, welds };
}

type Common = Omit<PieceRow & { kind: 'straight' }, 'kind' | 'from' | 'to' | 'end' | 'stock'>;

function rowOf(
  piece: PieceToCut,
  common: Common,
  legUp: number,
  bendClock: number,
  numbers: Numbers,
): PieceRow {
  const placed = numbers.placed.get(nameOf(piece));
  if (placed === undefined) throw new Error(`piece ${common.id} has no stock`);
  if (piece.kind === 'insert' || placed.kind === 'insert') {
    if (placed.kind !== 'insert' || piece.kind !== 'insert')
      throw new Error(`piece ${common.id} is misplaced`);
    const { stock, to, end } = placed;
    return { ...common, kind: 'straight', stock, from: to - common.length, to, end };
  }
  const { stock, end, arc, reversed, marks, trim } = placed;
  const clock = turnOf(piece.part === 0 ? bendClock : 0);
  return {
    ...common,
    kind: 'bend',
    clr: piece.clr,
    angle: piece.angle,
    legUp,
    legDown: piece.legDown,
    clock,
    clockMark: clockArc(numbers.rules.od, shorterWay(clock)),
    setBack: setBack(piece.clr, piece.angle),
    stock,
    end,
    arc,
    reversed,
    marks,
    trim,
  };
}
