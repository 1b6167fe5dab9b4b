import type { Saw } from '../../job/rack.js';

/*
 * The cut list: what is sawn from what, where to mark it, and how it is welded up. mm, rad, kg.
 */

/** One piece of stock in the plan. */
export type StockItem =
  | {
      readonly kind: 'bend';
      /** B1, B2, ... */
      readonly id: string;
      /** Its key in the rack file. */
      readonly rack: string;
      readonly clr: number;
      readonly angle: number;
      readonly legs: readonly [a: number, b: number];
      readonly price: number;
    }
  | {
      readonly kind: 'straight';
      /** T1, T2, ... */
      readonly id: string;
      readonly rack: string;
      readonly length: number;
      readonly price: number;
    };

/** Where to mark a cut in an arc: it lies in a plane that holds the bend's centre axis. */
export interface ArcMark {
  /** The tangent point it is measured from, the nearer one, and the angle from there. */
  readonly from: 'A' | 'B';
  readonly angle: number;
  /** Along the centre line, the outside and the inside of the bend, from the tangent point. */
  readonly centre: number;
  readonly outside: number;
  readonly inside: number;
  /** Straight across, from the tangent point to the mark on the outside: what a rule reads. */
  readonly outsideChord: number;
  /**
   * Along the outside and the inside from the end of the leg kept there, sawn square: an oblique cut at the
   * flange is made after marking.
   */
  readonly fromSawnEnd: { readonly outside: number; readonly inside: number } | undefined;
}

/** Whichever piece: its place in its primary, its welds and its stock. */
interface AnyPiece {
  /** P1-2: second piece of P1 from the flange. */
  readonly id: string;
  readonly primary: string;
  /** Stations of its ends along the route; below 0 where it reaches into the flange. */
  readonly stations: readonly [from: number, to: number];
  /** Along its axis. */
  readonly length: number;
  readonly weldUp: string | undefined;
  readonly weldDown: string | undefined;
  /** Its stock item. */
  readonly stock: string;
  /** kg; undefined where the material is not in the tables. */
  readonly mass: number | undefined;
  /** Of the first piece, how much reaches into the socket or the plate. */
  readonly intoFlange: number;
  /** An oblique first cut: lean from square, and the clock of the tube's long side from the clock reference. */
  readonly face: { readonly lean: number; readonly toward: number } | undefined;
  /**
   * Where pieces were corrected at the bench: stays as planned, measures as entered, cut anew for one that is
   * scrap, or to be cut or turned
   * otherwise than planned: `too far` where even so the tube ends too far from its slot. The marks of a piece as entered are those planned.
   */
  readonly asCut?: 'good' | 'as cut' | 'cut anew' | 're-cut' | 're-cut, too far';
}

export interface BendPieceRow extends AnyPiece {
  readonly kind: 'bend';
  readonly clr: number;
  readonly angle: number;
  readonly legUp: number;
  readonly legDown: number;
  /** Its turning direction against the bend before, right hand about the flow. */
  readonly clock: number;
  /**
   * That clock as a length round the tube from the outside line of the bend before (for the first bend from
   * the clock reference): pi D clock / 360, the shorter way; above 0 clockwise as one looks downstream.
   */
  readonly clockMark: number;
  /** From its tangent point to where its straights would meet: CLR tan(angle / 2). */
  readonly setBack: number;
  /** The stock end that its leg is on; `middle`: no leg; `whole`: both. */
  readonly end: 'A' | 'B' | 'middle' | 'whole';
  /** Where it lies in the arc, from the tangent point of that end (of A for a middle or whole piece). */
  readonly arc: readonly [from: number, to: number];
  /** The gas runs through it from the stock's B side to A. */
  readonly reversed: boolean;
  /** The cuts in its arc: none for a whole piece, two for a middle one. */
  readonly marks: readonly ArcMark[];
  /** To be sawn off each raw leg, by end; undefined where the leg is not part of the piece. */
  readonly trim: readonly [a: number | undefined, b: number | undefined];
}

export interface StraightPieceRow extends AnyPiece {
  readonly kind: 'straight';
  /** Where it lies on the stick from its one raw end, or on a leg of a bend from that leg's raw end. */
  readonly from: number;
  readonly to: number;
  /** The leg it is sawn from, where its stock is a bend. */
  readonly end: 'A' | 'B' | undefined;
}

export type PieceRow = BendPieceRow | StraightPieceRow;

export interface WeldRow {
  /** W1, W2, ... */
  readonly id: string;
  readonly primary: string;
  /** Station along the route; the weld at the flange, or onto a part that stands already, at 0. */
  readonly at: number;
  readonly kind: 'flange' | 'straight' | 'arc-end' | 'in-arc' | 'collector';
  /** Of its seam, on the outside of the tube. */
  readonly length: number;
}

/** What goes back to the rack. */
export type LeftoverRow =
  | {
      readonly kind: 'bend';
      readonly stock: string;
      readonly clr: number;
      readonly angle: number;
      readonly legs: readonly [a: number, b: number];
    }
  | { readonly kind: 'straight'; readonly stock: string; readonly length: number };

/** What to take from the rack or to buy. */
export interface BuyRow {
  readonly rack: string;
  readonly count: number;
  readonly price: number;
}

/** A piece that was spoilt; its stock is gone. */
export interface ScrapRow {
  readonly id: string;
  readonly stock: string;
}

/** Where a weld stands along its whole primary, mm from the flange. */
export const fromFlange = (
  { begins }: Pick<CutList, 'begins'>,
  { primary, at }: Pick<WeldRow, 'primary' | 'at'>,
): number => (begins[primary] ?? 0) + at;

export interface CutList {
  readonly saw: Saw;
  readonly od: number;
  readonly stock: readonly StockItem[];
  readonly pieces: readonly PieceRow[];
  readonly welds: readonly WeldRow[];
  /** Where routes of what is added to a part that stands begin: its length from the flange, mm, by primary. */
  readonly begins: Readonly<Record<string, number>>;
  readonly leftovers: readonly LeftoverRow[];
  readonly buy: readonly BuyRow[];
  /** Pieces that were spoilt, where any were entered. */
  readonly scrap?: readonly ScrapRow[];
  /** The pieces that corrections speak of, as the list without corrections has them. */
  readonly planned?: readonly PieceRow[];
  readonly totals: {
    /** The collector's not counted. */
    readonly welds: number;
    readonly cost: number;
    /** Least cost of any plan of so few welds; undefined where it is not known. */
    readonly bound: number | undefined;
    readonly proved: boolean;
    /** kg */
    readonly mass: number | undefined;
  };
}
