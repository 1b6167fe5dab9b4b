import { degrees, tidy } from '../base/numbers.js';
import { tolerance } from '../base/tolerance.js';
import type { TackFixtureSpec, Tube } from '../job/job.js';
import { strapUnder } from './cradle-limits.js';
import type { Standing } from './cradle-place.js';
import { letterWidth } from './lettering.js';
import type { CradlePart } from './parts.js';

/**
 * The cradle that holds a tube where one may stand.
 * @param number its place along the tube, from 1 at the flange
 */
export function cradlePart(
  primary: string,
  number: number,
  { station, pose, shape, span }: Standing,
  fixture: TackFixtureSpec,
  tube: Tube,
): CradlePart {
  const { cradle } = fixture;
  const label = `${primary}-${number}`;
  const text = `${label} ${tidy(station, 1)}`;
  const halfBreadth = Math.ceil(2 * (span.sideways + cradle.wall) - tolerance.samePoint) / 2;
  return {
    kind: 'cradle',
    name: `cradle-${label}`,
    family: 'cradle',
    title: `Tube cradle ${label}`,
    od: tube.od,
    clearance: shape.clearance,
    height: pose.height,
    tilt: pose.tilt,
    bend: pose.bend,
    width: cradle.width,
    halfBreadth,
    embrace: cradle.embrace,
    strap: strapUnder(cradle.strap, cradle.foot, span, cradle.wall),
    foot: cradle.foot,
    engraving: { text, depth: cradle.engrave, height: engravedHeight(text, 2 * halfBreadth) },
    remarks: remarks(primary, station, { station, pose, shape, span }, cradle),
    primary,
    station,
  };
}

/** The largest lettering up to 6 mm, in half millimetres, that leaves a tenth of the face free at each end. */
const engravedHeight = (text: string, room: number): number =>
  Math.min(6, Math.max(2, Math.floor((2 * 0.8 * room) / letterWidth(text, 1)) / 2));

function remarks(
  primary: string,
  station: number,
  { pose, shape }: Standing,
  cradle: TackFixtureSpec['cradle'],
): readonly string[] {
  const on = pose.bend === undefined ? 'a straight' : `a bend of CLR ${tidy(pose.bend.clr, 1)}`;
  const [x, y] = pose.at;
  return [
    `Holds ${primary} at ${tidy(station, 1)} mm along its centre line, on ${on}; axis ${tidy(pose.height, 2)} mm over the base, rising ${tidy(degrees(pose.tilt), 2)} deg along the flow.`,
    `Foot on the base plate at x ${tidy(x, 2)}, y ${tidy(y, 2)}, turned ${tidy(degrees(pose.azimuth), 2)} deg counter-clockwise seen from above.`,
    `Saddle ${tidy(shape.clearance, 2)} mm clear of the tube all round. Prints standing on its foot, without support; 4 perimeters.`,
    ...(cradle.strap === undefined
      ? ['No strap slot: hold the tube down by hand or tape, clear of the tack.']
      : []),
    'Plastic softens far below the heat of a tack: near 59 C for PLA, 77 for PETG, 105 for ABS. Keep it 40 mm from every tack, tack in short bursts and let each cool.',
    'Never weld out in a plastic cradle: take the header out once it is tacked. Heated plastic gives off harmful fumes; work with extraction, and follow local rules for hot work.',
  ];
}
