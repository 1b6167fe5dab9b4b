import { degrees, roundTo } from '../../base/numbers.js';
import { fromFlange, type CutList, type PieceRow } from './cut-list.js';

/** Decimals of a record's lengths (mm) and angles (degrees): a march of its pieces meets the route to 1e-6. */
const DECIMALS = 9;

const mm = (length: number): number => roundTo(length, DECIMALS);
const deg = (angle: number): number => roundTo(degrees(angle), DECIMALS);

/** The cut list as plain data, from which anyone can check the plan without this program. mm and degrees. */
export type CutListRecord = Readonly<Record<string, unknown>>;

/** What stands in `cut-list.json`. */
export function cutListRecord(list: CutList): CutListRecord {
  const { saw, totals } = list;
  return {
    unit: 'mm',
    saw: { kerf: mm(saw.kerf), dress: mm(saw.dress), raw_trim: mm(saw.rawTrim) },
    stock: list.stock.map((item) =>
      item.kind === 'bend'
        ? {
            id: item.id,
            rack: item.rack,
            clr: mm(item.clr),
            angle: deg(item.angle),
            legs: item.legs.map(mm),
            price: item.price,
          }
        : { id: item.id, rack: item.rack, length: mm(item.length), price: item.price },
    ),
    pieces: list.pieces.map(pieceRecord),
    welds: list.welds.map((weld) => {
      const { id, primary, kind } = weld;
      return { id, primary, at: mm(fromFlange(list, weld)), kind };
    }),
    // What corrections were made from: an earlier plan is told from a later one by it.
    ...(list.planned ? { planned: list.planned.map(pieceRecord) } : {}),
    ...(list.scrap ? { scrap: list.scrap.map(({ id, stock }) => ({ id, stock })) } : {}),
    leftovers: list.leftovers.map((left) =>
      left.kind === 'bend'
        ? { stock: left.stock, clr: mm(left.clr), angle: deg(left.angle), legs: left.legs.map(mm) }
        : { stock: left.stock, length: mm(left.length) },
    ),
    totals: {
      welds: totals.welds,
      cost: roundTo(totals.cost, 4),
      bound: totals.bound === undefined ? null : roundTo(totals.bound, 4),
      proved: totals.proved,
    },
  };
}

function pieceRecord(piece: PieceRow): Record<string, unknown> {
  const { id, primary, kind, stock } = piece;
  const ends = { weld_up: piece.weldUp ?? null, weld_down: piece.weldDown ?? null };
  const flange = {
    ...(piece.asCut === undefined ? {} : { as_cut: piece.asCut }),
    ...(piece.intoFlange > 0 ? { into_flange: mm(piece.intoFlange) } : {}),
    ...(piece.face ? { face: { lean: deg(piece.face.lean), toward: deg(piece.face.toward) } } : {}),
  };
  if (piece.kind === 'straight')
    return {
      id,
      primary,
      kind,
      length: mm(piece.length),
      stock,
      ...(piece.end === undefined ? {} : { end: piece.end }),
      from: mm(piece.from),
      to: mm(piece.to),
      ...flange,
      ...ends,
    };
  return {
    id,
    primary,
    kind,
    clr: mm(piece.clr),
    angle: deg(piece.angle),
    leg_up: mm(piece.legUp),
    leg_down: mm(piece.legDown),
    clock: deg(piece.clock),
    stock,
    end: piece.end,
    arc_from_tangent: piece.arc.map(deg),
    reversed: piece.reversed,
    ...flange,
    ...ends,
  };
}
