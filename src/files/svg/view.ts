import { distance, plus, times, type Point } from '../../base/points.js';
import { tolerance } from '../../base/tolerance.js';
import type { PlatePart } from '../../design/parts.js';
import { arc } from '../../geom/arcs.js';
import type { Bounds } from '../../geom/bounds.js';
import { boundsOf, circleLoop } from '../../geom/loops.js';
import type { Segment } from '../../geom/segments.js';
import { boxed } from '../measure/contours.js';
import { levelDimension, together, uprightDimension, type Piece } from './dimensions.js';
import { isPassage, type Feature } from './features.js';
import { placeLabels, type Label } from './labels.js';
import {
  drawnCircle,
  drawnCross,
  drawnLine,
  drawnLoop,
  drawnStroke,
  lines,
  type SheetPoint,
  type ToSheet,
} from './pen.js';
import { widthOf, wordsAbout, type Words } from './words.js';

/** Room round the part for numbers that found none inside, and for the dimensions beyond it, mm. */
const FOR_NUMBERS = 9;
const FOR_DIMENSION = 8;
/** Height of the numbers of holes, mm. */
const NUMBER = 3.2;
/** Half length of a centre cross, and radius and half length of the datum's mark, mm. */
const CENTRE_ARM = 1.5;
const DATUM_RADIUS = 1.5;
const DATUM_ARM = 3;

/** The part in true size with its numbers and dimensions, and the room it takes on the sheet. */
export interface View extends Piece {
  readonly width: number;
  readonly height: number;
  /** Whether the origin of x and y is marked on it. */
  readonly datum: boolean;
}

/** How much room the view will take, mm. */
export function roomOfView(part: PlatePart, features: readonly Feature[]): { width: number; height: number } {
  const box = boundsOf(part.outline);
  const row = portRow(features).length > 1;
  return {
    width: FOR_DIMENSION + 2 * FOR_NUMBERS + box.right - box.left,
    height: (row ? 2 : 1) * FOR_DIMENSION + 2 * FOR_NUMBERS + box.top - box.bottom,
  };
}

/** Draws the view with its upper left corner at a place of the sheet. */
export function viewOf(part: PlatePart, features: readonly Feature[], corner: SheetPoint): View {
  const box = boundsOf(part.outline);
  const row = portRow(features);
  const room = roomOfView(part, features);
  const left = corner[0] + FOR_DIMENSION + FOR_NUMBERS;
  const top = corner[1] + (row.length > 1 ? FOR_DIMENSION : 0) + FOR_NUMBERS;
  const toSheet: ToSheet = ([x, y]) => [left + x - box.left, top + box.top - y];
  const datum = box.left <= 0 && box.right >= 0 && box.bottom <= 0 && box.top >= 0;
  const ring = pitchCircle(features);

  const drawn = [
    ...(ring ? [drawnCircle(toSheet(ring.centre), ring.radius, lines.chain)] : []),
    ...part.marks.flatMap((mark) => mark.strokes.map((stroke) => drawnStroke(stroke, lines.etched, toSheet))),
    ...features.flatMap((feature) => drawnFeature(feature, toSheet)),
    drawnLoop(part.outline, lines.cut, toSheet),
    ...(datum ? drawnDatum(toSheet([0, 0])) : []),
  ];
  const labels = labelled(part, features, datum, ring, box);
  const right = left + box.right - box.left;
  const bottom = top + box.top - box.bottom;
  const chain = row.slice(1).map((feature, i) => {
    const from = row[i] ?? feature;
    const at = top - FOR_NUMBERS - 1;
    return levelDimension(toSheet(from.centre)[0], toSheet(feature.centre)[0], top, at);
  });
  const dimensions = together(
    ...chain,
    levelDimension(left, right, bottom, bottom + FOR_NUMBERS + FOR_DIMENSION - 2),
    uprightDimension(top, bottom, left, left - FOR_NUMBERS - 1),
  );
  return {
    ...room,
    datum,
    drawn: [...drawn, ...labels.flatMap((label) => leaderOf(label, toSheet)), ...dimensions.drawn],
    words: [...labels.map((label) => numberOf(label, toSheet)), ...dimensions.words],
  };
}

function drawnFeature({ kind, loop, centre, drillAt }: Feature, toSheet: ToSheet): readonly string[] {
  const crosses = drillAt.map((at) =>
    drawnCross(toSheet(at), CENTRE_ARM * 1.5, { ...lines.drilled, dashes: undefined }),
  );
  const style = {
    opening: lines.cut,
    'cut hole': lines.cut,
    'drilled hole': lines.drilled,
    'filed slot': lines.drilled,
    pocket: lines.pocket,
  }[kind];
  const middleMark =
    (kind === 'opening' || kind === 'cut hole') && distance(centre, [0, 0]) > DATUM_ARM
      ? [drawnCross(toSheet(centre), CENTRE_ARM, lines.thin)]
      : [];
  return [drawnLoop(loop, style, toSheet), ...crosses, ...middleMark];
}

const drawnDatum = (at: SheetPoint): readonly string[] => [
  drawnCircle(at, DATUM_RADIUS, lines.rule),
  drawnCross(at, DATUM_ARM, lines.rule),
];

/** The openings that stand in a row along x, from left to right: their distances are what a header is measured by. */
function portRow(features: readonly Feature[]): readonly Feature[] {
  const openings = features.filter(isPassage).sort((a, b) => a.centre[0] - b.centre[0]);
  const heights = openings.map((feature) => feature.centre[1]);
  const apart = openings.slice(1).map((feature, i) => feature.centre[0] - (openings[i]?.centre[0] ?? 0));
  const level = Math.max(...heights) - Math.min(...heights) < Math.min(...apart) / 4;
  return openings.length > 1 && level ? openings : [];
}

/** How far apart the middles of just two ports or tubes are, mm, where they do not stand in a row along x. */
export function apartOf(features: readonly Feature[]): number | undefined {
  const [one, other, third] = features.filter(isPassage);
  if (!one || !other || third || portRow(features).length > 0) return undefined;
  return distance(one.centre, other.centre);
}

/** The circle on which three or more openings stand at equal distance from their middle. */
export function pitchCircle(
  features: readonly Feature[],
): { readonly centre: Point; readonly radius: number } | undefined {
  const passages = features.filter(isPassage).map((feature) => feature.centre);
  const sum = passages.reduce<Point>((total, at) => plus(total, at), [0, 0]);
  const centre = times(sum, 1 / passages.length);
  // A tube in the middle of the ring is none of the ring.
  const radii = passages.map((at) => distance(at, centre)).filter((radius) => radius > tolerance.shop);
  const even = Math.max(...radii) - Math.min(...radii) < tolerance.curveFit;
  return even && radii.length > 2 ? { centre, radius: radii[0] ?? 0 } : undefined;
}

/** Places the numbers clear of everything that is drawn. */
function labelled(
  part: PlatePart,
  features: readonly Feature[],
  datum: boolean,
  ring: ReturnType<typeof pitchCircle>,
  box: Bounds,
): readonly Label[] {
  const line = (from: Point, to: Point): Segment => ({ kind: 'line', from, to });
  const crossAt = ([x, y]: Point, arm: number): readonly Segment[] => [
    line([x - arm, y], [x + arm, y]),
    line([x, y - arm], [x, y + arm]),
  ];
  const drawn = [
    ...part.outline,
    ...features.flatMap((feature) => feature.loop),
    ...features.flatMap(({ centre, drillAt }) =>
      [centre, ...drillAt].flatMap((at) => crossAt(at, CENTRE_ARM * 1.5)),
    ),
    ...part.marks.flatMap((mark) =>
      mark.strokes.flatMap((stroke) => stroke.slice(1).map((to, i) => line(stroke[i] ?? to, to))),
    ),
    ...(datum
      ? [
          ...crossAt([0, 0], DATUM_ARM),
          arc([0, 0], DATUM_RADIUS, 0, Math.PI),
          arc([0, 0], DATUM_RADIUS, Math.PI, Math.PI),
        ]
      : []),
    ...(ring ? circleLoop(ring.centre, ring.radius) : []),
  ];
  const within = {
    left: box.left - FOR_NUMBERS,
    right: box.right + FOR_NUMBERS,
    bottom: box.bottom - FOR_NUMBERS,
    top: box.top + FOR_NUMBERS,
  };
  return placeLabels(features, boxed(drawn), within, ({ tag }) => [
    widthOf(tag, NUMBER, 'bold') / 2,
    NUMBER * 0.4,
  ]);
}

const numberOf = ({ feature, at }: Label, toSheet: ToSheet): Words =>
  wordsAbout(feature.tag, toSheet(at), NUMBER, { weight: 'bold' });

const leaderOf = ({ leader }: Label, toSheet: ToSheet): readonly string[] =>
  leader ? [drawnLine(toSheet(leader[0]), toSheet(leader[1]), lines.thin)] : [];
