import { dot3, scale, type Vector } from '../../base/vectors.js';
import { moved } from '../../geom/bodies.js';
import type { Shape } from '../../geom/sweep.js';
import type { Mover } from './movers.js';
import { passageOf } from './passage.js';
import type { Thing } from './things.js';

/** How far and which way a thing would have to stand elsewhere. */
export interface Shift {
  readonly by: number;
  readonly toward: string;
}

const ways: readonly (readonly [string, Vector])[] = [
  ['right', [1, 0, 0]],
  ['left', [-1, 0, 0]],
  ['up', [0, 1, 0]],
  ['down', [0, -1, 0]],
  ['out', [0, 0, 1]],
  ['in', [0, 0, -1]],
];

/** Further (mm) is no advice. */
const FURTHEST = 400;
/** What a person can set (mm). */
const STEP = 0.1;

/**
 * The smallest move of a thing, along one of the frame's six ways and to the next tenth of a millimetre, with
 * which a motion passes it. Every move told has been tried; undefined where none within reach will do, and for
 * tubes and fields.
 */
export function leastShift(mover: Mover, thing: Thing): Shift | undefined {
  // A field takes too long to be tried in many places.
  if (thing.pieces.some(({ shape }) => shape.kind === 'field')) return undefined;
  let best: Shift | undefined;
  for (const [toward, way] of ways) {
    const most = best?.by ?? FURTHEST;
    const passes = (by: number): boolean => {
      const pieces = thing.pieces.flatMap((piece) => {
        const shape = shifted(piece.shape, scale(way, by));
        return shape === undefined ? [] : [{ ...piece, shape }];
      });
      return (
        pieces.length === thing.pieces.length &&
        mover.motions.every((motion) => passageOf(motion, { ...thing, pieces }, false).reach === undefined)
      );
    };
    let [short, enough] = [0, 1];
    while (enough < most && !passes(enough)) [short, enough] = [enough, 2 * enough];
    if (enough >= most) {
      enough = most;
      if (!passes(most)) continue;
    }
    while (enough - short > STEP / 4) {
      const middle = (short + enough) / 2;
      if (passes(middle)) enough = middle;
      else short = middle;
    }
    const by = Math.ceil(enough / STEP - STEP) * STEP;
    if (by < (best?.by ?? Infinity) && passes(by)) best = { by, toward };
  }
  return best;
}

function shifted(shape: Shape, by: Vector): Shape | undefined {
  if (shape.kind === 'body') return { kind: 'body', body: moved(shape.body, by) };
  if (shape.kind === 'half space') {
    const { normal, offset } = shape.halfSpace;
    return { kind: 'half space', halfSpace: { normal, offset: offset + dot3(normal, by) } };
  }
  if (shape.kind === 'tube') return undefined;
  const { distance } = shape;
  return { kind: 'field', distance: (x, y, z) => distance(x - by[0], y - by[1], z - by[2]) };
}
