import { tolerance } from '../../base/tolerance.js';
import type { CutList, PieceRow } from './cut-list.js';
import { obliqueOf } from './marks.js';
import { insideArc, type CuttingRules } from './rules.js';
import { canGrow, isCut } from './stick-shifts.js';

/** A measure that can still be chosen: which, of which piece, and between which limits (mm, rad). */
export interface FreeMeasure {
  readonly piece: string;
  readonly key: 'length' | 'legUp' | 'legDown' | 'clock';
  readonly low: number;
  readonly planned: number;
  readonly high: number;
}

/**
 * What of a primary can still be chosen. Of every straight run one length, of a piece that is not cut yet, an
 * insert before a leg; and the clocking of every bend that is not tacked on. A length grows by no more than
 * its own stock has left, so that no other piece is touched; the last straight keeps what its slip joint takes.
 */
export function freeMeasures(
  list: CutList,
  primary: string,
  {
    saw,
    leastInsert,
    leastInsideArc,
    slip,
  }: Pick<CuttingRules, 'saw' | 'leastInsert' | 'leastInsideArc'> & { readonly slip: number },
): readonly FreeMeasure[] {
  const pieces = list.pieces.filter((piece) => piece.primary === primary);
  const found: FreeMeasure[] = [];
  let run: FreeMeasure[] = [];
  /** Of the straight that the run makes up. */
  let long = 0;
  const close = (least = 0): void => {
    const one = run.find(({ key }) => key === 'length') ?? run[0];
    if (one)
      found.push({ ...one, low: Math.max(one.low, Math.min(one.planned, one.planned + least - long)) });
    run = [];
  };
  const joints = new Map(list.welds.map((weld) => [weld.id, weld.kind]));
  for (const piece of pieces) {
    // At the flange what is in it does not count, nor what an oblique cut takes off the short side.
    const sunk = Math.max(0, piece.intoFlange) + obliqueOf(piece, list.od);
    const least = sunk + leastInsert;
    if (piece.kind === 'straight') {
      long += piece.length;
      if (!isCut(piece))
        run.push(between(piece.id, 'length', least, piece.length, spareOf(piece, list, saw.rawTrim)));
      continue;
    }
    const [up, down] = rawSpare(piece, saw.rawTrim);
    // A short arc must keep enough of its leg for its two welds not to run together.
    const lacking = leastInsideArc - insideArc(piece.clr, list.od, piece.angle);
    if (!isCut(piece) && piece.legUp > tolerance.samePoint)
      run.push(between(piece.id, 'legUp', sunk + Math.max(0, lacking), piece.legUp, up));
    close();
    long = piece.legDown;
    // Turned inside an arc it would kink; one tacked on, or with its oblique face sawn, is not turned any more.
    const inArc = piece.weldUp !== undefined && joints.get(piece.weldUp) === 'in-arc';
    const faced = piece.face !== undefined && isCut(piece);
    if (!inArc && !faced && piece.asCut !== 'good')
      found.push({
        piece: piece.id,
        key: 'clock',
        low: piece.clock - Math.PI / 2,
        planned: piece.clock,
        high: piece.clock + Math.PI / 2,
      });
    if (!isCut(piece) && piece.legDown > tolerance.samePoint)
      run.push(between(piece.id, 'legDown', Math.max(0, lacking), piece.legDown, down));
  }
  close(slip);
  return found;
}

const between = (
  piece: string,
  key: FreeMeasure['key'],
  least: number,
  planned: number,
  spare: number,
): FreeMeasure => ({ piece, key, low: Math.min(least, planned), planned, high: planned + spare });

/** How much longer a straight may be: what its stick has left, shared with others of its primary on that stick. */
function spareOf(piece: PieceRow & { kind: 'straight' }, list: CutList, rawTrim: number): number {
  const left = list.leftovers.find(({ stock }) => stock === piece.stock);
  if (left?.kind !== 'straight' || !canGrow(piece, list.pieces)) return 0;
  const mates = list.pieces.filter(
    (one) => one.kind === 'straight' && one.stock === piece.stock && one.primary === piece.primary,
  );
  return Math.max(0, left.length - rawTrim) / mates.length;
}

/** How much longer each leg may be: what is to be trimmed off it, less its raw end. */
function rawSpare(
  { end, trim, legUp, reversed }: PieceRow & { kind: 'bend' },
  rawTrim: number,
): readonly [up: number, down: number] {
  const spare = trim.map((cut) => (cut === undefined ? 0 : Math.max(0, cut - rawTrim)));
  const [a = 0, b = 0] = spare;
  if (end === 'whole') return reversed ? [b, a] : [a, b];
  return legUp > tolerance.samePoint ? [Math.max(a, b), 0] : [0, Math.max(a, b)];
}
