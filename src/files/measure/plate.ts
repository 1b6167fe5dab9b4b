import { distance, middle, minus, type Point } from '../../base/points.js';
import type { PlatePart } from '../../design/parts.js';
import { tolerance } from '../../base/tolerance.js';
import { lengthOf, pointAt } from '../../geom/arcs.js';
import { areaOf, boundsOf, circleLoop, movedLoop, perimeterOf } from '../../geom/loops.js';
import { obround } from '../../geom/shapes.js';
import type { Loop, Stroke } from '../../geom/segments.js';
import { inch, type DxfOptions } from '../dxf/drawing.js';
import { cutHoles, cutOpenings, drillPlaces, plateDrawing } from '../dxf/plate-drawing.js';
import { dxfReader, readDxf, type FoundDrawing } from '../dxf/read.js';
import { closenessOf, strokesOffMetal, type Closeness } from './clashes.js';
import {
  boxed,
  boxGap,
  contourOf,
  cutContours,
  isWithin,
  type CutContour,
  type CutContours,
} from './contours.js';
import { gapTo } from './gaps.js';
import { startGauge, type Gauge, type Measure } from './measure.js';

/** The last digit of a coordinate in the file, in the file's unit. */
const LAST_DIGIT = 1e-6;

/**
 * Measures a plate's cut file as a table's own program would see it, against the part it was made from.
 *
 * Areas are exact from the bulges; they may differ by the perimeter times the last digit written. Every
 * corner and every middle of an edge must lie on the part's edges, and the part's on the file's.
 * @param options those the file was written with
 * @returns a row for each thing measured; a text that cannot be read gives one row, which fails
 */
export async function measurePlate(
  text: string,
  part: PlatePart,
  options: DxfOptions = {},
): Promise<readonly Measure[]> {
  const gauge = startGauge(part.name, dxfReader);
  let found: FoundDrawing;
  try {
    found = await readDxf(text);
  } catch (error) {
    gauge.word('file can be read', 'yes', `no: ${error instanceof Error ? error.message : String(error)}`);
    return gauge.measures;
  }
  const contours = cutContours(found, options.oneLayer ?? false);
  gauge.word('unit', options.unit ?? 'mm', found.unit);
  const drilled = drilledContours(part, found);
  const closeness = closenessOf([...contours.outer, ...contours.inner, ...drilled]);
  measureContours(gauge, part, found, contours, closeness);
  measureSize(gauge, part, contours, options.unit === 'in' ? inch * LAST_DIGIT : LAST_DIGIT);
  measureHoles(gauge, part, found, contours);
  measureWeb(gauge, part, closeness);
  measureExtents(gauge, found, contours);
  if (options.oneLayer !== true) measureMarks(gauge, part, found, contours);
  return gauge.measures;
}

function measureContours(
  gauge: Gauge,
  part: PlatePart,
  found: FoundDrawing,
  contours: CutContours,
  { crossings, doubled }: Closeness,
): void {
  const { outer, inner, open } = contours;
  gauge.count('outlines', 1, outer.length);
  gauge.count('openings and cut holes', cutOpenings(part).length + cutHoles(part).length, inner.length);
  gauge.count('open contours', 0, open);
  gauge.count('edges drawn twice', 0, doubled);
  gauge.count('contours that cross or touch', 0, crossings);
  const within = ({ loop: [first] }: CutContour): boolean =>
    first !== undefined && outer.some((contour) => isWithin(contour, first.from));
  gauge.count('openings outside the outline', 0, inner.filter((contour) => !within(contour)).length);
  gauge.count('things a table cannot cut', 0, found.strangers.length);
}

function measureSize(gauge: Gauge, part: PlatePart, contours: CutContours, digit: number): void {
  const designed = designedLoops(part);
  const [outer] = contours.outer;
  const perimeter = perimeterOf(part.outline);
  const all = designed.reduce((sum, loop) => sum + perimeterOf(loop), 0);
  const sum = (areas: readonly number[]): number => areas.reduce((a, b) => a + b, 0);
  const inside = sum(designed.slice(1).map((loop) => Math.abs(areaOf(loop))));
  const outline = Math.abs(areaOf(part.outline));
  const found = outer?.area ?? NaN;
  const left = found - sum(contours.inner.map((contour) => contour.area));
  gauge.size('area within the outline', outline, found, 'mm2', perimeter * digit);
  gauge.size('area left after cutting', outline - inside, left, 'mm2', all * digit);

  const asked = boundsOf(part.outline);
  const box = outer && boundsOf(outer.loop);
  const width = box ? box.right - box.left : NaN;
  const height = box ? box.top - box.bottom : NaN;
  gauge.size('width', asked.right - asked.left, width, 'mm', tolerance.file);
  gauge.size('height', asked.top - asked.bottom, height, 'mm', tolerance.file);

  const cut = [...contours.outer, ...contours.inner].map((contour) => contour.loop);
  const off = Math.max(farthest(cut, designed), farthest(designed, cut));
  gauge.atMost('edges off their place', 0, off, 'mm', tolerance.file);
}

function measureHoles(gauge: Gauge, part: PlatePart, found: FoundDrawing, contours: CutContours): void {
  const circles = contours.inner.flatMap(({ round }) => (round ? [round] : []));
  for (const hole of cutHoles(part)) {
    const [nearest] = [...circles].sort((a, b) => distance(a.centre, hole.at) - distance(b.centre, hole.at));
    const off = nearest ? distance(nearest.centre, hole.at) : NaN;
    gauge.atMost(`${hole.name}: centre off its place`, 0, off, 'mm', tolerance.file);
    gauge.size(`${hole.name}: diameter`, hole.diameter, 2 * (nearest?.radius ?? NaN), 'mm', tolerance.file);
  }
  const drilled = drillPlaces(part);
  gauge.count('places to drill', drilled.length, found.points.length);
  for (const place of drilled) {
    const off = Math.min(...found.points.map((point) => distance(point.at, place.at)));
    gauge.atMost(`${place.name}: drill point off its place`, 0, off, 'mm', tolerance.file);
  }
}

/** The holes yet to be drilled, and the slots yet to be drilled and filed, at the points the file marks for them. */
function drilledContours(part: PlatePart, found: FoundDrawing): readonly CutContour[] {
  const marked = (place: Point): Point | undefined =>
    [...found.points].sort((a, b) => distance(a.at, place) - distance(b.at, place))[0]?.at;
  const holes = part.holes.flatMap(({ at, diameter, made }) => {
    const spot = made === 'drilled' ? marked(at) : undefined;
    return spot ? [circleLoop(spot, diameter / 2)] : [];
  });
  const slots = part.openings.flatMap(({ drill }) => {
    const [from, to] = (drill?.ends ?? []).map(marked);
    if (!drill || !from || !to) return [];
    const [x, y] = minus(to, from);
    const slot = obround(distance(from, to) + drill.diameter, drill.diameter);
    return [movedLoop(slot, Math.atan2(y, x), middle(from, to))];
  });
  return [...holes, ...slots].map((loop) => contourOf(loop));
}

/**
 * The least metal between two edges of the finished plate, so the holes yet to be drilled count too.
 * The design may have told of a thinner web than asked and gone on; then its own figure is the one to meet.
 */
function measureWeb(gauge: Gauge, part: PlatePart, { web }: Closeness): void {
  if (web === Infinity) return;
  const { asked, found: designed } = part.leastWeb;
  gauge.atLeast('least web', Math.min(asked, designed), web, 'mm', tolerance.file);
}

function measureExtents(gauge: Gauge, found: FoundDrawing, contours: CutContours): void {
  const [outer] = contours.outer;
  const box = outer && boundsOf(outer.loop);
  const { least = [NaN, NaN], most = [NaN, NaN] } = found.extents ?? {};
  const off = box
    ? Math.max(
        distance([box.left, box.bottom], least as Point),
        distance([box.right, box.top], most as Point),
      )
    : NaN;
  gauge.atMost('extents stated in the header, off the outline', 0, off, 'mm', tolerance.file);
}

/** Marks are compared by their whole length with the drawing as designed: flavours split them differently. */
function measureMarks(gauge: Gauge, part: PlatePart, found: FoundDrawing, contours: CutContours): void {
  const etched = plateDrawing(part).entities.filter((entity) => entity.layer === 'ETCH');
  const asked = etched.reduce((sum, entity) => {
    if (entity.kind === 'stroke') return sum + strokeLength(entity.points);
    if (entity.kind === 'contour') return sum + perimeterOf(entity.loop);
    return entity.kind === 'circle' ? sum + 2 * Math.PI * entity.radius : sum;
  }, 0);
  const measured =
    found.strokes.reduce((sum, stroke) => sum + strokeLength(stroke), 0) +
    found.runs
      .filter((run) => run.layer === 'ETCH')
      .reduce((sum, run) => sum + run.loop.reduce((length, edge) => length + lengthOf(edge), 0), 0) +
    found.circles
      .filter((circle) => circle.layer === 'ETCH')
      .reduce((sum, circle) => sum + 2 * Math.PI * circle.radius, 0);
  gauge.size('etched length', asked, measured, 'mm', (1 + etched.length) * tolerance.file);
  gauge.count(
    'marks that leave the metal',
    0,
    strokesOffMetal(found.strokes, contours.outer, contours.inner),
  );
}

/** The contours as designed, the outline first. */
const designedLoops = (part: PlatePart): readonly Loop[] => [
  part.outline,
  ...cutOpenings(part).map((opening) => opening.loop),
  ...cutHoles(part).map((hole) => circleLoop(hole.at, hole.diameter / 2)),
];

const strokeLength = (stroke: Stroke): number =>
  stroke.slice(1).reduce((sum, to, i) => sum + distance(stroke[i] ?? to, to), 0);

/** How far the corners and middles of one set of loops are from the other set at most, mm. */
function farthest(loops: readonly Loop[], from: readonly Loop[]): number {
  const edges = boxed(from.flat());
  const gapFrom = (spot: Point, within: number): number => {
    const box = { left: spot[0], right: spot[0], bottom: spot[1], top: spot[1] };
    let least = within;
    for (const { edge, box: other } of edges)
      if (boxGap(box, other) < least) least = Math.min(least, gapTo(edge, spot));
    return least;
  };
  let most = 0;
  for (const edge of loops.flat()) {
    for (const spot of [edge.from, pointAt(edge, 0.5)]) {
      // Nearly every spot lies on an edge; only for one that does not are the others looked at.
      const near = gapFrom(spot, tolerance.file);
      most = Math.max(most, near < tolerance.file ? near : gapFrom(spot, Infinity));
    }
  }
  return most;
}
