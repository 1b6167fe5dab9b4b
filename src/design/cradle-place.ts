import type { Frame } from '../base/frames.js';
import { tolerance } from '../base/tolerance.js';
import type { CentreLine, CentreLinePiece } from '../geom/centre-line.js';
import type { TackFixtureSpec } from '../job/job.js';
import { cradleLimits, saddleSpan, type SaddleShape, type SaddleSpan } from './cradle-limits.js';
import { poseOverBase, type CradlePose } from './cradle-pose.js';

/** How far a cradle may be moved along its tube without asking, mm. */
const FARTHEST = 40;
/** Stations move on whole steps of this, mm; a tape shows no less. */
const STEP = 0.5;

/** What keeps a cradle from a station: lengths mm, angles rad. */
export type Hindrance =
  /** The piece ends nearer than the saddle reaches, at the tube's own end or where another piece begins. */
  | { readonly of: 'joint' | 'end'; readonly room: number; readonly needs: number; readonly piece: string }
  | { readonly of: 'tilt'; readonly found: number };

/** A cradle that stands where it can. */
export interface Standing {
  readonly station: number;
  readonly pose: CradlePose;
  readonly shape: SaddleShape;
  readonly span: SaddleSpan;
}

/** Where a cradle came to stand, and what kept it from the station asked. */
export interface Placing {
  readonly standing: Standing | undefined;
  readonly hindrance: Hindrance | undefined;
  /** Where no place was near enough: the nearest station anywhere on the tube. */
  readonly nearest: number | undefined;
}

/**
 * Stands a cradle at a station, or moves it along the tube by the least that puts its saddle wholly on one
 * straight or one bend, no steeper than the limit. Beyond 40 mm it is not moved: the nearest station is told.
 * @param asked on the line, mm from its start
 */
export function standAt(
  cradle: TackFixtureSpec['cradle'],
  od: number,
  base: Frame,
  line: CentreLine,
  asked: number,
): Placing {
  const at = (station: number) => tryStation(cradle, od, base, line, station);
  const first = at(asked);
  if (!('of' in first)) return { standing: first, hindrance: undefined, nearest: undefined };
  for (const station of stationsRound(asked, line.length)) {
    const here = at(station);
    if ('of' in here) continue;
    return Math.abs(station - asked) <= FARTHEST
      ? { standing: here, hindrance: first, nearest: undefined }
      : { standing: undefined, hindrance: first, nearest: station };
  }
  return { standing: undefined, hindrance: first, nearest: undefined };
}

/** Whole steps on both sides of a station, the nearer first. */
function* stationsRound(asked: number, length: number): Generator<number> {
  let low = Math.ceil(asked / STEP) - 1;
  let high = Math.floor(asked / STEP) + 1;
  while (low >= 0 || high * STEP <= length) {
    if (low >= 0 && (high * STEP > length || asked - low * STEP <= high * STEP - asked)) yield low-- * STEP;
    else yield high++ * STEP;
  }
}

/** The cradle at a station, or what keeps it from there. */
export function tryStation(
  cradle: TackFixtureSpec['cradle'],
  od: number,
  base: Frame,
  line: CentreLine,
  station: number,
): Standing | Hindrance {
  const pose = poseOverBase(base, line, station);
  const piece = line.pieces[pose.piece];
  if (piece === undefined) throw new Error(`no piece ${pose.piece} on the centre line`);
  const before = station - piece.station;
  const room = Math.min(before, piece.length - before);
  const { width, embrace, clearanceBend, clearanceStraight } = cradle;
  // Quick answers first: half the width is the least that any saddle uses.
  if (room < width / 2 - tolerance.samePoint) return hinderedBy(line, piece, before, width / 2);
  if (Math.abs(pose.tilt) > cradleLimits.steepest + tolerance.sameDirection)
    return { of: 'tilt', found: pose.tilt };
  const { height, tilt, bend } = pose;
  const clearance = bend === undefined ? clearanceStraight : clearanceBend;
  const shape: SaddleShape = { od, clearance, height, tilt, bend, width, embrace };
  const span = saddleSpan(shape);
  if (span.steepest > cradleLimits.steepest + tolerance.sameDirection)
    return { of: 'tilt', found: span.steepest };
  if (room < span.reach - tolerance.samePoint) return hinderedBy(line, piece, before, span.reach);
  return { station, pose, shape, span };
}

function hinderedBy(line: CentreLine, piece: CentreLinePiece, before: number, needs: number): Hindrance {
  const after = piece.length - before;
  const atEnd = before < after ? piece.station <= 0 : piece.station + piece.length >= line.length;
  return { of: atEnd ? 'end' : 'joint', room: Math.min(before, after), needs, piece: piece.kind };
}
