import { tolerance } from '../../base/tolerance.js';
import type { ArcMark, LeftoverRow, StockItem } from './cut-list.js';
import { arcMark } from './marks.js';
import { stickLength, usableLeg, type CuttingRules } from './rules.js';
import type { BendUse, StickUse } from './stock-plan.js';
import type { BendToCut, InsertToCut, PieceToCut } from './way-pieces.js';

/** Where a bend piece lies in its stock bend. */
export interface PlacedBend {
  readonly kind: 'bend';
  readonly stock: string;
  readonly end: 'A' | 'B' | 'middle' | 'whole';
  readonly arc: readonly [from: number, to: number];
  readonly reversed: boolean;
  readonly marks: readonly ArcMark[];
  readonly trim: readonly [a: number | undefined, b: number | undefined];
}

/** Where an insert lies on its stick, or on the leg of a stock bend. */
export interface PlacedInsert {
  readonly kind: 'insert';
  readonly stock: string;
  readonly from: number;
  readonly to: number;
  readonly end: 'A' | 'B' | undefined;
}

export interface Layout {
  readonly item: StockItem;
  readonly placed: ReadonlyMap<PieceToCut, PlacedBend | PlacedInsert>;
  readonly leftovers: readonly LeftoverRow[];
}

/** Lays out what is sawn from one stock bend, and what is left of it. */
export function layOutBend(use: BendUse, id: string, rules: CuttingRules): Layout {
  const { stock, endA, middles, endB, whole } = use;
  const { od, saw, straightGap: gap } = rules;
  const { clr, angle, legs, usable } = stock;
  const item: StockItem = { kind: 'bend', id, rack: stock.path, clr, angle, legs, price: stock.price };
  const placed = new Map<PieceToCut, PlacedBend | PlacedInsert>();
  const leftovers: LeftoverRow[] = [];
  const straightLeft = (length: number): void => {
    if (length >= rules.leastInsert) leftovers.push({ kind: 'straight', stock: id, length });
  };
  const mark = (at: number, from: 'A' | 'B', leg?: number): ArcMark =>
    arcMark({ clr, od, angle: at, from }, leg);

  if (whole) {
    const [up, down] = [whole.legUp, whole.legDown];
    const straight = usable[0] >= up - tolerance.samePoint && usable[1] >= down - tolerance.samePoint;
    const [a, b] = straight ? [up, down] : [down, up];
    const trim = [legs[0] - a, legs[1] - b] as const;
    placed.set(whole, {
      kind: 'bend',
      stock: id,
      end: 'whole',
      arc: [0, whole.angle],
      reversed: !straight,
      marks: [],
      trim,
    });
    trim.forEach((length) => straightLeft(length - gap));
    return { item, placed, leftovers };
  }

  /** How far the arc is used up from A, and from B. */
  let at = usable[0] > 0 ? 0 : stock.gap;
  let used = false;
  const middle = (piece: BendToCut, from: number): void => {
    const to = from + piece.angle;
    const nearer = (x: number): ArcMark => (x <= angle - x ? mark(x, 'A') : mark(angle - x, 'B'));
    placed.set(piece, {
      kind: 'bend',
      stock: id,
      end: 'middle',
      arc: [from, to],
      reversed: false,
      marks: [nearer(from), nearer(to)],
      trim: [undefined, undefined],
    });
  };
  const ended = (piece: BendToCut, end: 'A' | 'B'): void => {
    const leg = Math.max(piece.legUp, piece.legDown);
    if (leg <= tolerance.samePoint) return middle(piece, end === 'A' ? 0 : angle - piece.angle);
    const raw = legs[end === 'A' ? 0 : 1];
    const upstream = piece.legUp > tolerance.samePoint;
    placed.set(piece, {
      kind: 'bend',
      stock: id,
      end,
      arc: [0, piece.angle],
      reversed: upstream === (end === 'B'),
      marks: [mark(piece.angle, end, leg)],
      trim: end === 'A' ? [raw - leg, undefined] : [undefined, raw - leg],
    });
  };
  if (endA) {
    ended(endA, 'A');
    at = endA.angle;
    used = true;
  }
  for (const piece of middles) {
    const from = at + (used ? stock.gap : 0);
    middle(piece, from);
    at = from + piece.angle;
    used = true;
  }
  if (endB) ended(endB, 'B');

  // Of each leg that no piece keeps: what an insert takes from its raw end, and what is left of it.
  const leftLegs = [endA, endB].map((piece, end) => {
    const raw = legs[end] ?? 0;
    if (piece) {
      straightLeft(raw - Math.max(piece.legUp, piece.legDown) - gap);
      return 0;
    }
    const insert = use.inserts[end];
    if (insert === undefined) return raw;
    placed.set(insert, onStock(insert, id, saw.rawTrim, end === 0 ? 'A' : 'B'));
    return usableLeg(raw - insert.length - gap, saw);
  }) as [number, number];

  // The arc that is left, with the legs that are still on it; a leg cut off on its own is a straight.
  const from = used ? at + stock.gap : 0;
  const to = endB ? angle - endB.angle - stock.gap : angle;
  const [legA, legB] = [used ? 0 : leftLegs[0], endB ? 0 : leftLegs[1]];
  if (used && !endA) straightLeft(leftLegs[0] - gap);
  // An arc without a leg goes back only if a piece could be sawn from it.
  const useful = legA + legB > 0 ? 0 : rules.leastInsideArc / (clr - od / 2);
  if (to - from > useful + tolerance.sameDirection)
    leftovers.push({ kind: 'bend', stock: id, clr, angle: to - from, legs: [legA, legB] });
  else {
    straightLeft(legA - gap);
    straightLeft(legB - gap);
  }
  return { item, placed, leftovers };
}

/** An insert from a raw end on: an oblique cut at its upstream end lies outside its marks. */
function onStock(insert: InsertToCut, stock: string, at: number, end: 'A' | 'B' | undefined): PlacedInsert {
  return { kind: 'insert', stock, from: at, to: at + insert.length, end };
}

/** Lays out what is sawn from one stick. */
export function layOutStick({ stock, inserts }: StickUse, id: string, rules: CuttingRules): Layout {
  const { saw, straightGap: gap } = rules;
  const item: StockItem = {
    kind: 'straight',
    id,
    rack: stock.path,
    length: stock.length,
    price: stock.price,
  };
  const placed = new Map<PieceToCut, PlacedInsert>();
  let at = saw.rawTrim;
  for (const insert of inserts) {
    placed.set(insert, onStock(insert, id, at, undefined));
    at += insert.length + gap;
  }
  // The far raw end is still on it.
  const left = stock.length - at;
  const room = stickLength(stock, saw) + saw.rawTrim - (at - gap);
  const useful = room >= 0 && left - saw.rawTrim >= rules.leastInsert;
  return { item, placed, leftovers: useful ? [{ kind: 'straight', stock: id, length: left }] : [] };
}
