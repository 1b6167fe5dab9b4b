import { degrees, radians, tidy } from '../../base/numbers.js';
import type { Problem } from '../../base/problems.js';
import type { missOf } from '../../geom/centre-line.js';
import type { Measures } from './as-made.js';
import type { PieceRow } from './cut-list.js';
import type { FreeMeasure } from './free-measures.js';
import { shorterWay } from './marks.js';

/** Nearer than this a primary can be drawn into its slot. Common practice, no source. */
const NEAR = { distance: 1, angle: radians(0.5) };

/** Whether an end that is so far off can be drawn into its slot. */
export const isNear = ({ distance, angle }: Miss): boolean =>
  distance <= NEAR.distance && angle <= NEAR.angle;

/** What is too much of a piece, and can be sawn off it again: nothing of one that has both its legs, but those. */
export function overOf(piece: PieceRow, to: Measures | undefined): readonly string[] {
  if (to === undefined) return [];
  const told = (by: number | undefined, unit: string): string[] =>
    by !== undefined && by > 0.05 ? [`${tidy(by, 1)} ${unit} off ${piece.id}`] : [];
  if (piece.kind === 'straight') return told(to.length && to.length - piece.length, 'mm');
  return [
    ...(piece.end === 'whole' ? [] : told(to.angle && degrees(to.angle - piece.angle), 'deg of arc')),
    ...told(to.legUp && to.legUp - piece.legUp, 'mm of leg up'),
    ...told(to.legDown && to.legDown - piece.legDown, 'mm of leg down'),
  ];
}

const said = { length: 'long', legUp: 'of leg up', legDown: 'of leg down' } as const;

/** A length or turn that is not as planned, in words. */
export function wordsOf({ piece, key, planned }: FreeMeasure, value: number): string {
  if (key !== 'clock') return `${piece} ${tidy(value, 1)} mm ${said[key]} instead of ${tidy(planned, 1)}`;
  const turn = (angle: number): string => tidy(degrees(shorterWay(angle)), 1);
  return `${piece} turned ${turn(value)} deg instead of ${turn(planned)}`;
}

type Miss = ReturnType<typeof missOf>;

const missText = ({ distance, angle }: Miss): string =>
  `${tidy(distance, 1)} mm and ${tidy(degrees(angle), 2)} deg`;

/** Tells by how much a primary with pieces as entered misses its slot, and what brings it nearest. */
export function missProblem(
  primary: string,
  entered: readonly string[],
  before: Miss,
  after: Miss,
  words: readonly string[],
  {
    longer,
    stray,
    station,
    upTo,
    over,
  }: {
    readonly longer: number;
    readonly stray: number;
    readonly station: string;
    /** How far that piece reaches, mm along the primary from the flange. */
    readonly upTo: number;
    /** What can be sawn off what is entered. */
    readonly over: readonly string[];
  },
): Problem {
  const near = isNear(after);
  const anew = `leave ${station} as the last piece that stands, measure its open end, write it under primaries.built.${primary} as up_to: ${tidy(upTo, 1)} with end, take its pieces out of as_cut, and let \`tackwright route --only ${primary}\` find a new tail`;
  const cut = words.length === 0 ? 'nothing that can still be chosen helps' : words.join(', ');
  const nearest = `${cut}: ${missText(after)} are left, ${primary} is ${tidy(Math.abs(longer), 1)} mm ${longer < 0 ? 'shorter' : 'longer'}`;
  const first = over.length === 0 ? '' : `saw ${over.join(', ')} and it is as planned; or as it is, `;
  return {
    code: 'pieces/as-cut-misses',
    severity: 'warning',
    what: `with ${entered.join(', ')} as cut, ${primary} would miss its slot by ${missText(before)}${near ? '; with the cut list as it is now it does not' : ''}`,
    why: `it would be forced into place, or not go in at all; re-cut it strays up to ${tidy(stray, 1)} mm from its route; clearances, cradles and solids are those of the tube as cut`,
    fix: `${first}${near ? nearest : `${nearest}. That is too far (more than ${NEAR.distance} mm or ${tidy(degrees(NEAR.angle), 1)} deg): ${anew}`}`,
    place: { path: `as_cut.${entered[0] ?? ''}` },
  };
}
