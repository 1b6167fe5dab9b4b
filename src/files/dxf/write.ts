import { roundTo } from '../../base/numbers.js';
import type { Point } from '../../base/points.js';
import { boundsOf } from '../../geom/loops.js';
import { putBlocks, putObjects } from './blocks.js';
import { inch, type Drawing, type DxfOptions, type Entity } from './drawing.js';
import { putEntities } from './entities.js';
import { startGroups } from './groups.js';
import { putHeader, type Extents } from './header.js';
import { putTables } from './tables.js';

/**
 * A drawing as the text of a DXF file, which holds nothing but lines, arcs, circles and points:
 * no splines, ellipses, text or dimensions, for a table cuts or stumbles over them.
 *
 * Coordinates have six decimals and bulges twelve; arcs stay arcs in every flavour. The same drawing
 * gives the same bytes.
 * @see DXF reference of the format's maker, R12 (AC1009) and 2000 (AC1015): group codes, header, tables.
 */
export function writeDxf(drawing: Drawing, options: DxfOptions = {}): string {
  const chosen = {
    flavour: options.flavour ?? 'r2000',
    unit: options.unit ?? 'mm',
    oneLayer: options.oneLayer ?? false,
  } as const;
  const modern = chosen.flavour === 'r2000';
  const scale = chosen.unit === 'mm' ? 1 : 1 / inch;
  const entities = chosen.oneLayer
    ? drawing.entities.filter((entity) => entity.layer !== 'ETCH')
    : drawing.entities;
  const extents = extentsOf(entities, scale);

  const body = startGroups();
  putTables(body, chosen.oneLayer ? [] : drawing.layers, extents, modern);
  putBlocks(body, modern);
  putEntities(body, entities, chosen, scale);
  if (modern) putObjects(body);
  body.put(0, 'EOF');

  const head = startGroups();
  putHeader(head, { modern, unit: chosen.unit, extents, nextHandle: body.handle() });
  return head.text() + body.text();
}

/** The least box round everything that is written, arcs counted as arcs, in the file's unit. */
function extentsOf(entities: readonly Entity[], scale: number): Extents {
  const corners = entities.flatMap(cornersOfBox);
  const across = corners.map(([x]) => x);
  const up = corners.map(([, y]) => y);
  const scaled = (values: readonly number[], pick: (...values: number[]) => number): number =>
    values.length === 0 ? 0 : roundTo(pick(...values) * scale, 6);
  return {
    least: [scaled(across, Math.min), scaled(up, Math.min)],
    most: [scaled(across, Math.max), scaled(up, Math.max)],
  };
}

function cornersOfBox(entity: Entity): readonly Point[] {
  switch (entity.kind) {
    case 'contour': {
      const box = boundsOf(entity.loop);
      return [
        [box.left, box.bottom],
        [box.right, box.top],
      ];
    }
    case 'circle': {
      const { centre, radius } = entity;
      return [
        [centre[0] - radius, centre[1] - radius],
        [centre[0] + radius, centre[1] + radius],
      ];
    }
    case 'point':
      return [entity.at];
    case 'stroke':
      return entity.points;
  }
}
