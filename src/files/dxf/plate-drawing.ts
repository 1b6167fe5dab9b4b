import { distance, plus, type Point } from '../../base/points.js';
import { tolerance } from '../../base/tolerance.js';
import type { PlatePart } from '../../design/parts.js';
import { distanceTo } from '../../geom/loops.js';
import type { Loop } from '../../geom/segments.js';
import { layers, type Drawing, type Entity, type LayerName } from './drawing.js';
import { roundnessOf } from './roundness.js';

/** A place to drill: a round hole, or one end of a slot too narrow to cut. */
export interface DrillPlace {
  readonly name: string;
  readonly at: Point;
  readonly diameter: number;
}

/** Every place of a plate that the table only marks for the drill. */
export const drillPlaces = (part: PlatePart): readonly DrillPlace[] => [
  ...part.holes.filter((hole) => hole.made === 'drilled'),
  ...part.openings.flatMap(({ name, drill }) =>
    (drill?.ends ?? []).map((at, i) => ({
      name: `${name}, end ${i + 1}`,
      at,
      diameter: drill?.diameter ?? 0,
    })),
  ),
];

/** The openings that the table cuts: all but the slots that are drilled and filed. */
export const cutOpenings = (part: PlatePart): PlatePart['openings'] =>
  part.openings.filter((opening) => opening.drill === undefined);

/** The holes that the table cuts. */
export const cutHoles = (part: PlatePart): PlatePart['holes'] =>
  part.holes.filter((hole) => hole.made === 'cut');

/**
 * What a table needs of a plate, at nominal size: kerf and lead-ins are the business of its own program.
 * Etched marks come first, then the drill points, the openings, and the outline last, so that a table
 * that works down the file does not cut a hole in a part that has already dropped out.
 *
 * Round contours become circles. A hole to be drilled becomes a point with a small etched cross; a slot to be
 * drilled and filed has one at either end, and its edge etched.
 */
export function plateDrawing(part: PlatePart): Drawing {
  const drilled = drillPlaces(part);
  const filed = part.openings.filter((opening) => opening.drill !== undefined);
  const entities: Entity[] = [
    ...part.marks.flatMap((mark) => mark.strokes.map((points) => stroke(points))),
    ...part.pockets.map((pocket) => contour(pocket.loop, 'ETCH')),
    ...filed.map((opening) => contour(opening.loop, 'ETCH')),
    ...drilled.flatMap((place) => crossAt(place, part)),
    ...drilled.map(({ at }): Entity => ({ kind: 'point', layer: 'DRILL', at })),
    ...cutHoles(part).map((hole) => circle(hole.at, hole.diameter / 2, 'CUT_INNER')),
    ...cutOpenings(part).map((opening) => contour(opening.loop, 'CUT_INNER')),
    contour(part.outline, 'CUT_OUTER'),
  ];
  return { layers, entities };
}

const stroke = (points: readonly Point[]): Entity => ({ kind: 'stroke', layer: 'ETCH', points });

const circle = (centre: Point, radius: number, layer: LayerName): Entity => ({
  kind: 'circle',
  layer,
  centre,
  radius,
});

function contour(loop: Loop, layer: LayerName): Entity {
  const round = roundnessOf(loop);
  return round ? circle(round.centre, round.radius, layer) : { kind: 'contour', layer, loop };
}

/** Longest arm of the cross at a drilled hole, mm: enough to set a centre punch by eye. */
const CROSS_ARM = 3;
/** The arm stays this share inside the hole, so that the drill takes the cross away, and inside the metal. */
const CROSS_SHARE = 0.8;

/**
 * The two strokes of the cross at a place to drill. It is shortened where an edge is near, for a stroke
 * over an opening makes a plasma torch lose its arc; where there is no room, the point stands alone.
 */
function crossAt({ at, diameter }: DrillPlace, part: PlatePart): readonly Entity[] {
  const edges = [part.outline, ...cutOpenings(part).map((opening) => opening.loop)];
  const room = Math.min(
    ...edges.map((loop) => distanceTo(loop, at).distance),
    ...cutHoles(part).map((hole) => Math.abs(distance(hole.at, at) - hole.diameter / 2)),
  );
  const arm = Math.min(CROSS_ARM, (CROSS_SHARE * diameter) / 2, CROSS_SHARE * room);
  if (arm < tolerance.shop) return [];
  return [
    stroke([plus(at, [-arm, 0]), plus(at, [arm, 0])]),
    stroke([plus(at, [0, -arm]), plus(at, [0, arm])]),
  ];
}
