import type { CutList, PieceRow } from '../../src/design/pieces/cut-list.js';

/*
 * Where a cut list says to saw: every mark, trim and turn worked out anew by the circle's own measures from
 * where the piece lies in its stock. mm, rad.
 */

const near = (a: number | undefined, b: number | undefined): boolean =>
  a === undefined || b === undefined ? a === b : Math.abs(a - b) < 1e-7;

export const markComplaints = (list: CutList): string[] =>
  list.pieces.flatMap((piece) => (piece.kind === 'bend' ? pieceComplaints(piece, list) : []));

function pieceComplaints(piece: PieceRow & { kind: 'bend' }, list: CutList): string[] {
  const bad: string[] = [];
  const say = (good: boolean, what: string): void => {
    if (!good) bad.push(`${piece.id}: ${what}`);
  };
  const item = list.stock.find(({ id }) => id === piece.stock);
  if (item?.kind !== 'bend') return [`${piece.id}: no stock bend`];
  const r = list.od / 2;
  const ext = piece.face ? r * Math.tan(piece.face.lean) : 0;
  const [up, down] = [piece.legUp + ext, piece.legDown];
  const leg = Math.max(up, down);
  const { clr, end, arc, marks, trim } = piece;

  // Cuts in the arc: from the tangent point they are marked from, and the leg that is sawn square there.
  const cuts: [from: 'A' | 'B', angle: number, leg: number | undefined][] =
    end === 'whole'
      ? []
      : end === 'middle'
        ? arc.map((at) => (at <= item.angle - at ? ['A', at, undefined] : ['B', item.angle - at, undefined]))
        : [[end, piece.angle, leg]];
  say(marks.length === cuts.length, `${marks.length} marks for ${cuts.length} cuts`);
  cuts.forEach(([from, angle, kept], i) => {
    const mark = marks[i];
    if (!mark) return;
    say(mark.from === from && near(mark.angle, angle), `cut ${i + 1} is marked from ${mark.from}`);
    say(near(mark.centre, clr * angle), 'mark on the centre line');
    say(near(mark.outside, (clr + r) * angle), 'mark outside');
    say(near(mark.inside, (clr - r) * angle), 'mark inside');
    say(near(mark.outsideChord, 2 * (clr + r) * Math.sin(angle / 2)), 'chord');
    say(
      near(mark.fromSawnEnd?.outside, kept === undefined ? kept : kept + (clr + r) * angle),
      'outside, sawn end',
    );
    say(
      near(mark.fromSawnEnd?.inside, kept === undefined ? kept : kept + (clr - r) * angle),
      'inside, sawn end',
    );
  });

  const [a, b] = piece.reversed ? [down, up] : [up, down];
  const due =
    end === 'middle'
      ? [undefined, undefined]
      : end === 'whole'
        ? [item.legs[0] - a, item.legs[1] - b]
        : end === 'A'
          ? [item.legs[0] - leg, undefined]
          : [undefined, item.legs[1] - leg];
  say(near(trim[0], due[0]) && near(trim[1], due[1]), `to trim ${trim.join(', ')}, due ${due.join(', ')}`);
  const turn = piece.clock > Math.PI ? piece.clock - 2 * Math.PI : piece.clock;
  say(near(piece.clockMark, r * turn), `turn of ${turn} marked at ${piece.clockMark}`);
  say(near(piece.setBack, clr * Math.tan(piece.angle / 2)), 'set-back');
  return bad;
}
