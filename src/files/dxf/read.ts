import type { IDxf } from 'dxf-parser';
import type { Point } from '../../base/points.js';
import { arc, arcFromBulge, line } from '../../geom/arcs.js';
import type { Loop, Segment, Stroke } from '../../geom/segments.js';
import { chained } from './chain.js';
import { inch } from './drawing.js';

/** A run of lines and arcs found in a file, head to tail. */
interface FoundRun {
  readonly layer: string;
  readonly loop: Loop;
  readonly closed: boolean;
}

interface FoundCircle {
  readonly layer: string;
  readonly centre: Point;
  readonly radius: number;
}

/** What a reader that is not ours found in a DXF file, in mm. */
export interface FoundDrawing {
  readonly version: string;
  /** The unit the file says it is in. Without one that we write, its numbers are taken as mm. */
  readonly unit: 'mm' | 'in' | 'none';
  /** The box that the header states. */
  readonly extents: { readonly least: Point; readonly most: Point } | undefined;
  readonly layers: readonly string[];
  readonly runs: readonly FoundRun[];
  readonly circles: readonly FoundCircle[];
  readonly points: readonly { readonly layer: string; readonly at: Point }[];
  /** Straight runs on ETCH. */
  readonly strokes: readonly Stroke[];
  /** Kinds of things that a cut file of ours never holds. */
  readonly strangers: readonly string[];
}

/** The reader's name in the manifest. */
export const dxfReader = 'dxf-parser';

/**
 * Reads a DXF file with dxf-parser, a reader that shares no code with the writer. Loading it costs
 * 7 ms, so it is fetched only when a file is measured.
 * @throws an Error where the text is no DXF file.
 */
export async function readDxf(text: string): Promise<FoundDrawing> {
  const { default: DxfParser } = await import('dxf-parser');
  const parsed = new DxfParser().parseSync(text);
  if (parsed === null) throw new Error('the file holds no drawing');
  return gathered(parsed);
}

/** The few fields of the reader's entities that a cut file fills. */
interface Thing {
  readonly type: string;
  readonly layer: string;
  readonly vertices?: readonly { readonly x: number; readonly y: number; readonly bulge?: number }[];
  readonly shape?: boolean;
  readonly center?: { readonly x: number; readonly y: number };
  readonly radius?: number;
  readonly startAngle?: number;
  readonly endAngle?: number;
  readonly position?: { readonly x: number; readonly y: number };
}

function gathered(parsed: IDxf): FoundDrawing {
  const header = parsed.header;
  const unit = header['$INSUNITS'] === 4 ? 'mm' : header['$INSUNITS'] === 1 ? 'in' : 'none';
  const scale = unit === 'in' ? inch : 1;
  const place = (p: { readonly x: number; readonly y: number }): Point => [p.x * scale, p.y * scale];

  const runs: FoundRun[] = [];
  const circles: FoundCircle[] = [];
  const points: { layer: string; at: Point }[] = [];
  const strokes: Stroke[] = [];
  const strangers: string[] = [];
  const loose: { layer: string; edge: Segment }[] = [];

  for (const thing of parsed.entities as unknown as readonly Thing[]) {
    const { layer } = thing;
    const corners = (thing.vertices ?? []).map((vertex) => ({ at: place(vertex), bulge: vertex.bulge ?? 0 }));
    if (thing.type === 'LWPOLYLINE' || thing.type === 'POLYLINE') {
      const closed = thing.shape === true;
      const loop = corners.flatMap(({ at, bulge }, i) => {
        const next = corners[i + 1] ?? (closed ? corners[0] : undefined);
        return next === undefined ? [] : [arcFromBulge(at, next.at, bulge)];
      });
      if (!closed && layer === 'ETCH') strokes.push(corners.map(({ at }) => at));
      else runs.push({ layer, loop, closed });
    } else if (thing.type === 'LINE') {
      const [from, to] = corners;
      if (from && to) loose.push({ layer, edge: line(from.at, to.at) });
    } else if (thing.type === 'ARC' && thing.center && thing.radius !== undefined) {
      const { startAngle = 0, endAngle = 0 } = thing;
      const sweep = endAngle > startAngle ? endAngle - startAngle : endAngle - startAngle + 2 * Math.PI;
      loose.push({ layer, edge: arc(place(thing.center), thing.radius * scale, startAngle, sweep) });
    } else if (thing.type === 'CIRCLE' && thing.center && thing.radius !== undefined) {
      circles.push({ layer, centre: place(thing.center), radius: thing.radius * scale });
    } else if (thing.type === 'POINT' && thing.position) {
      points.push({ layer, at: place(thing.position) });
    } else {
      strangers.push(thing.type);
    }
  }

  // Single lines and arcs are joined end to end, as an importer does; marks that stay open are strokes.
  for (const layer of new Set(loose.map((piece) => piece.layer))) {
    const edges = loose.filter((piece) => piece.layer === layer).map((piece) => piece.edge);
    for (const run of chained(edges)) {
      const straight = run.loop.every((edge) => edge.kind === 'line');
      if (layer !== 'ETCH' || (run.closed && !straight)) runs.push({ layer, ...run });
      else strokes.push([...run.loop.map((edge) => edge.from), ...run.loop.slice(-1).map((edge) => edge.to)]);
    }
  }

  const corner = (name: string): Point | undefined => {
    const at = header[name];
    return typeof at === 'object' ? place(at) : undefined;
  };
  const [least, most] = [corner('$EXTMIN'), corner('$EXTMAX')];
  return {
    version: String(header['$ACADVER']),
    unit,
    extents: least && most ? { least, most } : undefined,
    layers: Object.keys(parsed.tables.layer?.layers ?? {}),
    runs,
    circles,
    points,
    strokes,
    strangers,
  };
}
