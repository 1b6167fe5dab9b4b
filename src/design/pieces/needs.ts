import type { PieceNeed } from './bend-ways.js';
import type { Step, Ways } from './ways.js';

/** A bend piece that some way asks for: ways that ask for the same one share it. */
export interface Need {
  readonly index: number;
  readonly primary: number;
  /** Number of the bend along its primary. */
  readonly bend: number;
  /** The stretch of arc, told apart from others of the same bend. */
  readonly arc: string;
  readonly kind: PieceNeed['kind'];
  readonly clr: number;
  readonly angle: number;
  /** Usable legs asked of the stock: `end` its one leg and 0, `whole` upstream and downstream. */
  readonly legs: readonly [number, number];
}

export interface NeedTable {
  readonly list: readonly Need[];
  /** The needs of a step, in order of its bend's pieces. */
  readonly of: (step: Step) => readonly number[];
}

const legsOf = (piece: PieceNeed): readonly [number, number] =>
  piece.kind === 'middle' ? [0, 0] : piece.kind === 'end' ? [piece.leg, 0] : piece.legs;

/** The needs of all ways of all primaries. */
export function needsOf(primaries: readonly Ways[]): NeedTable {
  const list: Need[] = [];
  const known = new Map<string, number>();
  const bySteps = new Map<Step, readonly number[]>();
  primaries.forEach(({ steps, course }, primary) => {
    for (const step of steps.flat()) {
      const clr = course.bends[step.straight]?.clr ?? 0;
      const needs = (step.bend?.pieces ?? []).map((piece) => {
        const arc = `${primary} ${step.straight} ${piece.from.toFixed(9)} ${piece.angle.toFixed(9)}`;
        const legs = legsOf(piece);
        const key = `${arc} ${piece.kind} ${legs.join(' ')}`;
        const index = known.get(key) ?? list.length;
        if (index === list.length) {
          known.set(key, index);
          const { kind, angle } = piece;
          list.push({ index, primary, bend: step.straight, arc, kind, clr, angle, legs });
        }
        return index;
      });
      bySteps.set(step, needs);
    }
  });
  return { list, of: (step) => bySteps.get(step) ?? [] };
}
