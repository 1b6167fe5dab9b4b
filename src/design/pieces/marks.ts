import type { ArcMark, PieceRow } from './cut-list.js';

/**
 * Where to mark a radial cut in an arc: CLR x angle along the centre line, (CLR + D/2) x angle along the
 * outside, (CLR - D/2) x angle along the inside, from the tangent point; and from the sawn end of the leg, as
 * a tangent point cannot be seen on a tube.
 * @param leg kept at that end, mm; undefined where none is
 */
export function arcMark(
  { clr, od, angle, from }: { clr: number; od: number; angle: number; from: 'A' | 'B' },
  leg: number | undefined,
): ArcMark {
  const [outside, inside] = [(clr + od / 2) * angle, (clr - od / 2) * angle];
  return {
    from,
    angle,
    centre: clr * angle,
    outside,
    inside,
    outsideChord: 2 * (clr + od / 2) * Math.sin(angle / 2),
    fromSawnEnd: leg === undefined ? undefined : { outside: leg + outside, inside: leg + inside },
  };
}

/** From a bend's tangent point to where its straights would meet: CLR tan(angle / 2), mm. */
export const setBack = (clr: number, angle: number): number => clr * Math.tan(angle / 2);

/** What a bend saves against going by the corner: 2 set-backs less the arc, mm. */
export const gainOf = (clr: number, angle: number): number => 2 * setBack(clr, angle) - clr * angle;

/** A clocking (rad) as a length round the tube: pi D clock / 360 (clock in degrees), mm. */
export const clockArc = (od: number, clock: number): number => (od / 2) * clock;

/** A clock brought into (-half a turn, half a turn]: the shorter way round. */
export function shorterWay(clock: number): number {
  const full = 2 * Math.PI;
  const turn = ((clock % full) + full) % full;
  return turn > Math.PI ? turn - full : turn;
}

/** How far an oblique first cut reaches from the axis to the tube's long and short side, mm: D/2 x tan(lean). */
export const obliqueOf = ({ face }: Pick<PieceRow, 'face'>, od: number): number =>
  face === undefined ? 0 : (od / 2) * Math.tan(face.lean);

/** Mass of tube along its axis, kg: pi (D - t) t x length x density (kg / m3). A bend weighs as its centre line. */
export const tubeMass = (od: number, wall: number, length: number, density: number): number =>
  Math.PI * (od - wall) * wall * length * density * 1e-9;
