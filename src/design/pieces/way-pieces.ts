import type { PieceNeed } from './bend-ways.js';
import type { Step, Ways } from './ways.js';

/** A bend piece of a chosen way, with the legs it really keeps (mm of stock). */
export interface BendToCut {
  readonly kind: 'bend';
  readonly primary: number;
  /** Number of its bend along the primary, and of this part of it. */
  readonly bend: number;
  readonly part: number;
  readonly clr: number;
  readonly angle: number;
  readonly legUp: number;
  readonly legDown: number;
  readonly cut: PieceNeed;
}

/** A straight piece of a chosen way. */
export interface InsertToCut {
  readonly kind: 'insert';
  readonly primary: number;
  /** Number of its straight along the primary, and of this insert in it. */
  readonly straight: number;
  readonly part: number;
  readonly length: number;
}

export type PieceToCut = BendToCut | InsertToCut;

/** The pieces of a chosen way, in order of the flow. */
export function piecesOfWay(primary: number, { course }: Ways, way: readonly Step[]): readonly PieceToCut[] {
  return way.flatMap((step, i): PieceToCut[] => {
    const inserts = step.share.inserts.map((length, part): PieceToCut => {
      return { kind: 'insert', primary, straight: step.straight, part, length };
    });
    const cuts = step.bend?.pieces ?? [];
    const bends = cuts.map((cut, part): PieceToCut => {
      const legUp = part === 0 ? step.share.behind : 0;
      const legDown = part === cuts.length - 1 ? (way[i + 1]?.share.before ?? 0) : 0;
      const clr = course.bends[i]?.clr ?? 0;
      return { kind: 'bend', primary, bend: i, part, clr, angle: cut.angle, legUp, legDown, cut };
    });
    return [...inserts, ...bends];
  });
}
