import { distance, plus, type Point } from '../../base/points.js';
import { tolerance } from '../../base/tolerance.js';
import { type PlatePart, type RoundHole } from '../../design/parts.js';
import { distanceTo } from '../../geom/loops.js';
import { type Loop } from '../../geom/segments.js';
import { layers, type Drawing, type Entity, type LayerName } from './drawing.js';
import { roundnessOf } from './roundness.js';

/**
 * What a table needs of a plate, at nominal size: kerf and lead-ins are the business of its own program.
 * Etched marks come first, then the drill points, the openings, and the outline last, so that a table
 * that works down the file does not cut a hole in a part that has already dropped out.
 *
 * Round contours become circles. A drilled hole becomes a point with a small etched cross.
 */
export function plateDrawing(part: PlatePart): Drawing {
  const cut = part.holes.filter((hole) => hole.made === 'cut');
  const drilled = part.holes.filter((hole) => hole.made === 'drilled');
  const entities: Entity[] = [
    ...part.marks.flatMap((mark) => mark.strokes.map((points) => stroke(points))),
    ...part.pockets.map((pocket) => contour(pocket.loop, 'ETCH')),
    ...drilled.flatMap((hole) => crossAt(hole, part)),
    ...drilled.map((hole): Entity => ({ kind: 'point', layer: 'DRILL', at: hole.at })),
    ...cut.map((hole): Entity => circle(hole.at, hole.diameter / 2, 'CUT_INNER')),
    ...part.openings.map((opening) => contour(opening.loop, 'CUT_INNER')),
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
 * The two strokes of the cross at a drilled hole. It is shortened where an edge is near, for a stroke
 * over an opening makes a plasma torch lose its arc; where there is no room, the point stands alone.
 */
function crossAt(hole: RoundHole, part: PlatePart): readonly Entity[] {
  const edges = [part.outline, ...part.openings.map((opening) => opening.loop)];
  const others = part.holes.filter((other) => other !== hole && other.made === 'cut');
  const room = Math.min(
    ...edges.map((loop) => distanceTo(loop, hole.at).distance),
    ...others.map((other) => Math.abs(distance(other.at, hole.at) - other.diameter / 2)),
  );
  const arm = Math.min(CROSS_ARM, (CROSS_SHARE * hole.diameter) / 2, CROSS_SHARE * room);
  if (arm < tolerance.shop) return [];
  return [
    stroke([plus(hole.at, [-arm, 0]), plus(hole.at, [arm, 0])]),
    stroke([plus(hole.at, [0, -arm]), plus(hole.at, [0, arm])]),
  ];
}
