import { minus, times, type Point } from '../../base/points.js';
import { degrees, roundTo, turnOf } from '../../base/numbers.js';
import { arcFromBulge, bulgeOf } from '../../geom/arcs.js';
import type { Loop } from '../../geom/segments.js';
import { MODEL } from './blocks.js';
import type { DxfOptions, Entity } from './drawing.js';
import { arcText, bulgeText, coordinate, type Groups } from './groups.js';

/** A corner of a contour as it stands in the file, and the bulge of the edge that leaves it. */
interface Corner {
  readonly at: Point;
  readonly bulge: number;
}

/**
 * A loop's corners as written: rounded to the file's digits, in the file's unit. An edge that the
 * rounding has shrunk to nothing is left out, for a doubled corner makes some importers stop.
 */
function cornersOf(loop: Loop, scale = 1): readonly Corner[] {
  const corners = loop.map((segment) => ({
    at: written(segment.from, scale),
    bulge: roundTo(bulgeOf(segment), 12),
  }));
  return corners.filter((corner, i) => {
    const next = corners[(i + 1) % corners.length];
    return next === undefined || corner.at[0] !== next.at[0] || corner.at[1] !== next.at[1];
  });
}

/** A place as written: in the file's unit, six decimals. */
const written = (at: Point, scale: number): Point => [roundTo(at[0] * scale, 6), roundTo(at[1] * scale, 6)];

/** The ENTITIES section. `scale` is 1 for millimetres, 1 / 25.4 for inches. */
export function putEntities(
  groups: Groups,
  entities: readonly Entity[],
  options: Required<DxfOptions>,
  scale: number,
): void {
  const { put, place } = groups;
  const modern = options.flavour === 'r2000';
  const start = (kind: string, layer: string, subclass: string): void => {
    put(0, kind);
    if (modern) {
      put(5, groups.handle());
      put(330, MODEL);
      put(100, 'AcDbEntity');
    }
    put(8, options.oneLayer ? '0' : layer);
    if (modern) put(100, subclass);
  };

  const polyline = (corners: readonly Corner[], layer: string, closed: boolean): void => {
    if (modern) {
      start('LWPOLYLINE', layer, 'AcDbPolyline');
      put(90, corners.length);
      put(70, closed ? 1 : 0);
      put(43, '0.0');
      for (const { at, bulge } of corners) {
        place(10, at[0], at[1], 'flat');
        if (bulge !== 0) put(42, bulgeText(bulge));
      }
      return;
    }
    start('POLYLINE', layer, '');
    put(66, 1);
    place(10, 0, 0);
    put(70, closed ? 1 : 0);
    for (const { at, bulge } of corners) {
      start('VERTEX', layer, '');
      place(10, at[0], at[1]);
      if (bulge !== 0) put(42, bulgeText(bulge));
    }
    start('SEQEND', layer, '');
  };

  /** Single lines and arcs, each from its own two corners, so that neighbours meet as exactly as in a polyline. */
  const pieces = (corners: readonly Corner[], layer: string, closed: boolean): void => {
    corners.forEach(({ at, bulge }, i) => {
      const next = corners[(i + 1) % corners.length];
      if (next === undefined || (!closed && i === corners.length - 1)) return;
      const edge = arcFromBulge(at, next.at, bulge);
      if (edge.kind === 'line') {
        start('LINE', layer, '');
        place(10, at[0], at[1]);
        place(11, next.at[0], next.at[1]);
        return;
      }
      const { centre, radius } = edge;
      const [first, last] = bulge > 0 ? [at, next.at] : [next.at, at];
      start('ARC', layer, '');
      put(10, arcText(centre[0]));
      put(20, arcText(centre[1]));
      put(30, '0.0');
      put(40, arcText(radius));
      put(50, arcText(bearing(centre, first)));
      put(51, arcText(bearing(centre, last)));
    });
  };

  const path = options.flavour === 'r12-arcs' ? pieces : polyline;
  put(0, 'SECTION');
  put(2, 'ENTITIES');
  for (const entity of entities) {
    switch (entity.kind) {
      case 'contour':
        path(cornersOf(entity.loop, scale), entity.layer, true);
        break;
      case 'circle':
        start('CIRCLE', entity.layer, 'AcDbCircle');
        place(10, ...times(entity.centre, scale));
        put(40, coordinate(entity.radius * scale));
        break;
      case 'point':
        start('POINT', entity.layer, 'AcDbPoint');
        place(10, ...times(entity.at, scale));
        break;
      case 'stroke': {
        const points = entity.points.map((at) => ({ at: written(at, scale), bulge: 0 }));
        path(points, entity.layer, false);
        break;
      }
    }
  }
  put(0, 'ENDSEC');
}

/** The direction from a centre to a point on the arc, degrees from x, counter-clockwise, in [0, 360). */
function bearing(centre: Point, at: Point): number {
  const [x, y] = minus(at, centre);
  return degrees(turnOf(Math.atan2(y, x)));
}
