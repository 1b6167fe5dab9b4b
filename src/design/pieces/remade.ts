import { degrees, tidy } from '../../base/numbers.js';
import type { Problem } from '../../base/problems.js';
import { tolerance } from '../../base/tolerance.js';
import { centreLineOf, type CentreLine, type CentreLineRow } from '../../geom/centre-line.js';
import type { CentreLines } from '../routes-by-hand.js';
import { rowsAsMade } from './as-made.js';
import { fromFlange, type CutList, type PieceRow } from './cut-list.js';
import type { NoWeldZone } from './no-weld-zones.js';

/** A primary that will not be as routed, as a piece of it measures otherwise. */
export interface Remade {
  readonly rows: readonly CentreLineRow[];
  readonly line: CentreLine;
  /** Key of the first of its pieces that measures otherwise. */
  readonly path: string;
}

/**
 * The primaries that corrections at the bench lead off their routes, as their pieces will be welded up.
 * @param list corrected
 * @param lines as routed
 */
export function remadePrimaries(list: CutList, lines: CentreLines): ReadonlyMap<string, Remade> {
  const remade = new Map<string, Remade>();
  for (const [id, line] of lines) {
    const own = list.pieces.filter(({ primary }) => primary === id);
    const first = own.find(({ asCut }) => asCut === 'as cut');
    if (first === undefined) continue;
    const rows = rowsAsMade(own);
    remade.set(id, { rows, line: centreLineOf(line.start, rows), path: `as_cut.${first.id}` });
  }
  return remade;
}

/** Warns of welds that come to stand where none may, since a piece was cut otherwise than planned. */
export const weldsAmiss = (
  list: CutList,
  remade: ReadonlyMap<string, Remade>,
  zonesOf: (primary: string) => readonly NoWeldZone[],
): readonly Problem[] =>
  [...remade].flatMap(([id, { path }]) => {
    const zones = zonesOf(id);
    const from = (station: number): string => tidy(fromFlange(list, { primary: id, at: station }), 1);
    return list.welds.flatMap(({ id: weld, primary, at, kind }): Problem[] => {
      if (primary !== id || kind === 'flange' || kind === 'collector') return [];
      const zone = zones.find(({ from, to }) => at > from + tolerance.shop && at < to - tolerance.shop);
      if (zone === undefined) return [];
      return [
        {
          code: 'pieces/weld-amiss',
          severity: 'warning',
          what: `${weld} comes to stand at ${from(at)} mm on ${id}, within ${zone.what} (${from(zone.from)} to ${from(zone.to)})`,
          why: 'its bead is in the way there, or cannot be reached',
          fix: `grind that bead flush; or saw the piece anew (${path}: scrap), as planned its weld stands clear`,
          place: { path },
        },
      ];
    });
  });

/** A piece as an earlier cut list has it; what a kind of piece has not is left out. mm, degrees. */
export interface RecordedPiece {
  readonly id: string;
  readonly kind: string;
  readonly clr?: number | undefined;
  readonly angle?: number | undefined;
  readonly leg_up?: number | undefined;
  readonly leg_down?: number | undefined;
  readonly length?: number | undefined;
}

/** Measures nearer than this are the same on a saw: mm, deg. */
const SAME = 0.05;

/**
 * Finds corrections that speak of pieces of another plan than the one they would be applied to: rack or routes
 * have changed since the pieces were cut.
 * @param planned the pieces that corrections speak of, as planned now
 * @param earlier the pieces of the cut list made before, as planned then
 * @returns an error for each; nothing for a piece that the earlier list has not
 */
export const ofAnotherPlan = (
  planned: readonly PieceRow[],
  earlier: readonly RecordedPiece[],
): readonly Problem[] =>
  planned.flatMap((piece): Problem[] => {
    const before = earlier.find(({ id }) => id === piece.id);
    if (before === undefined) return [];
    const now = measuresOf(piece);
    const same =
      before.kind === piece.kind &&
      now.every(([key, value]) => Math.abs((before[key] ?? Infinity) - value) <= SAME);
    if (same) return [];
    const then = (before.kind === 'straight' ? straightKeys : bendKeys).flatMap((key) => {
      const value = before[key];
      return value === undefined ? [] : [[key, value] as const];
    });
    return [
      {
        code: 'pieces/as-cut-other-plan',
        severity: 'error',
        what: `${piece.id} was to be ${wordsOf(before.kind, then)} on the cut list made before, and is ${wordsOf(piece.kind, now)} now`,
        why: 'the correction was measured on the one piece and would be worked into the other',
        fix: 'put rack and routes back as they were when it was cut; or, to start anew with what you have, take 1 entry out of as_cut',
        place: { path: `as_cut.${piece.id}` },
      },
    ];
  });

type Key = 'clr' | 'angle' | 'leg_up' | 'leg_down' | 'length';

const bendKeys = ['clr', 'angle', 'leg_up', 'leg_down'] as const;
const straightKeys = ['length'] as const;

const measuresOf = (piece: PieceRow): readonly (readonly [Key, number])[] =>
  piece.kind === 'straight'
    ? [['length', piece.length]]
    : [
        ['clr', piece.clr],
        ['angle', degrees(piece.angle)],
        ['leg_up', piece.legUp],
        ['leg_down', piece.legDown],
      ];

const said: Readonly<Record<Key, string>> = {
  clr: 'CLR',
  angle: 'deg',
  leg_up: 'leg up',
  leg_down: 'leg down',
  length: 'mm',
};

function wordsOf(kind: string, measures: readonly (readonly [Key, number])[]): string {
  const words = measures.map(([key, value]) =>
    key === 'angle' || key === 'length' ? `${tidy(value, 2)} ${said[key]}` : `${said[key]} ${tidy(value, 2)}`,
  );
  return `a ${kind} of ${words.join(', ')}`;
}
