import {
  add,
  cross3,
  direction,
  dot3,
  length3,
  scale,
  squareTo,
  turnedAbout,
  type Vector,
} from '../base/vectors.js';
import { cosSin } from '../base/numbers.js';
import { tolerance } from '../base/tolerance.js';

/** A straight of the centre line, mm; 0 is allowed. */
interface StraightRow {
  readonly straight: number;
}

/**
 * A bend: centre-line radius (mm), change of direction (rad, above 0), and clock: right hand about the flow
 * (rad) from the reference to the direction it turns toward. The first bend's reference is the start's
 * `clockReference`, a later one's is the turning direction of the bend before, carried along the tube.
 */
export interface BendRow {
  readonly clr: number;
  readonly angle: number;
  readonly clock: number;
}

export type CentreLineRow = StraightRow | BendRow;

/** Where a centre line begins, its flow there, and what its first bend's clock is counted from. */
export interface CentreLineStart {
  readonly at: Vector;
  readonly direction: Vector;
  /** Roughly square to the direction; it is made exactly so. */
  readonly clockReference: Vector;
}

interface Placed {
  /** Its place among the rows. */
  readonly index: number;
  readonly from: Vector;
  readonly to: Vector;
  /** Unit flow where it begins and where it ends. */
  readonly direction: Vector;
  readonly endDirection: Vector;
  /** Station of its beginning, mm along the centre line from the start. */
  readonly station: number;
  /** Along the centre line. */
  readonly length: number;
}

interface StraightPiece extends Placed {
  readonly kind: 'straight';
}

interface BendPiece extends Placed {
  readonly kind: 'bend';
  readonly clr: number;
  readonly angle: number;
  readonly centre: Vector;
  /** Unit axis that it turns about, right hand. */
  readonly axis: Vector;
  /** From the tube's axis to the bend's centre, where it begins and where it ends (unit). */
  readonly turnToward: Vector;
  readonly endTurnToward: Vector;
}

export type CentreLinePiece = StraightPiece | BendPiece;

/** The tube's pose at a station. */
interface Pose {
  readonly at: Vector;
  /** Unit flow. */
  readonly direction: Vector;
  /** On a bend: from the tube's axis to the bend's centre (unit). */
  readonly turnToward: Vector | undefined;
  /** Which piece it stands on, and how far along it, mm. */
  readonly piece: number;
  readonly along: number;
}

export interface CentreLine {
  readonly start: CentreLineStart;
  readonly pieces: readonly CentreLinePiece[];
  readonly length: number;
  readonly end: { readonly at: Vector; readonly direction: Vector };
  /**
   * The pose at a station, mm from the start. A station where two pieces meet belongs to the later of them
   * that has length. @throws RangeError where the station lies off the line.
   */
  poseAt(station: number): Pose;
}

/**
 * The centre line of a tube, marched row by row from its start.
 * Exact at quarter turns; errors elsewhere stay near 1e-15 of the length, as each piece is placed in closed form.
 * @param start mm and directions in the engine's frame
 * @param rows straights and bends in turn, straights first and last
 * @throws RangeError where the rows do not alternate or hold a value that no tube has, or where the reference
 * lies along the flow: the job's reader refuses such rows before they come here
 * @see a worked march of five rows in tests/geom/centre-line.test.ts
 */
export function centreLineOf(start: CentreLineStart, rows: readonly CentreLineRow[]): CentreLine {
  const flow = direction(start.direction);
  const across = squareTo(start.clockReference, flow);
  if (!(length3(across) > tolerance.sameDirection)) throw new RangeError('clock reference along the flow');
  if (rows.length % 2 === 0) throw new RangeError('the rows do not end in a straight');
  const pieces: CentreLinePiece[] = [];
  let stand: Stand = { index: 0, at: start.at, heading: flow, reference: direction(across), station: 0 };
  for (const row of rows) {
    if ('straight' in row !== (stand.index % 2 === 0))
      throw new RangeError(`row ${stand.index} breaks the turn of rows`);
    const piece = 'straight' in row ? straightAt(stand, row) : bendAt(stand, row);
    pieces.push(piece);
    stand = {
      index: stand.index + 1,
      at: piece.to,
      heading: piece.endDirection,
      reference: piece.kind === 'bend' ? piece.endTurnToward : stand.reference,
      station: stand.station + piece.length,
    };
  }
  const length = stand.station;
  return {
    start,
    pieces,
    length,
    end: { at: stand.at, direction: stand.heading },
    poseAt: (asked) => poseOn(pieces, length, asked),
  };
}

/**
 * Two lines as one, the second behind the first: stations and rows count on. Where a joint was measured off its
 * place they need not quite meet.
 */
export function lineBehind(first: CentreLine, second: CentreLine): CentreLine {
  const behind = second.pieces.map((piece) => ({
    ...piece,
    index: piece.index + first.pieces.length,
    station: piece.station + first.length,
  }));
  const pieces = [...first.pieces, ...behind];
  const length = first.length + second.length;
  return {
    start: first.start,
    pieces,
    length,
    end: second.end,
    poseAt: (asked) => poseOn(pieces, length, asked),
  };
}

/** Where the march has come to. */
interface Stand {
  readonly index: number;
  readonly at: Vector;
  readonly heading: Vector;
  readonly reference: Vector;
  readonly station: number;
}

function straightAt(
  { index, at, heading, station }: Stand,
  { straight: length }: StraightRow,
): StraightPiece {
  if (!Number.isFinite(length) || length < 0)
    throw new RangeError(`row ${index} has no straight of ${length}`);
  return {
    kind: 'straight',
    index,
    from: at,
    to: add(at, scale(heading, length)),
    direction: heading,
    endDirection: heading,
    station,
    length,
  };
}

function bendAt(
  { index, at, heading, reference, station }: Stand,
  { clr, angle, clock }: BendRow,
): BendPiece {
  if (!(clr > 0 && angle > 0 && Number.isFinite(clr + angle + clock)))
    throw new RangeError(`row ${index} is no bend`);
  const turnToward = turnedAbout(reference, heading, clock);
  const [c, s] = cosSin(angle);
  const endTurnToward = add(scale(turnToward, c), scale(heading, -s));
  const centre = add(at, scale(turnToward, clr));
  return {
    kind: 'bend',
    index,
    from: at,
    to: add(centre, scale(endTurnToward, -clr)),
    direction: heading,
    endDirection: add(scale(heading, c), scale(turnToward, s)),
    station,
    length: clr * angle,
    clr,
    angle,
    centre,
    axis: cross3(heading, turnToward),
    turnToward,
    endTurnToward,
  };
}

function poseOn(pieces: readonly CentreLinePiece[], length: number, asked: number): Pose {
  const slack = tolerance.samePoint;
  if (!(asked >= -slack && asked <= length + slack))
    throw new RangeError(`station ${asked} is not on a centre line of ${length}`);
  let found = pieces[0];
  for (const piece of pieces) if (piece.length > 0 && piece.station <= asked + slack / 2) found = piece;
  if (found === undefined) throw new RangeError('a centre line of no pieces');
  const along = Math.min(found.length, Math.max(0, asked - found.station));
  const piece = found.index;
  if (found.kind === 'straight')
    return {
      at: add(found.from, scale(found.direction, along)),
      direction: found.direction,
      turnToward: undefined,
      piece,
      along,
    };
  const [c, s] = cosSin(along / found.clr);
  const turnToward = add(scale(found.turnToward, c), scale(found.direction, -s));
  return {
    at: add(found.centre, scale(turnToward, -found.clr)),
    direction: add(scale(found.direction, c), scale(found.turnToward, s)),
    turnToward,
    piece,
    along,
  };
}

/** How far the pose found misses the pose asked: mm between the points, rad between the directions. */
export function missOf(
  found: { readonly at: Vector; readonly direction: Vector },
  asked: { readonly at: Vector; readonly direction: Vector },
): { readonly distance: number; readonly angle: number } {
  const apart = add(found.at, scale(asked.at, -1));
  const turn = cross3(found.direction, asked.direction);
  return {
    distance: length3(apart),
    angle: Math.atan2(length3(turn), dot3(found.direction, asked.direction)),
  };
}
