import type { Point } from '../../base/points.js';
import type { Loop, Stroke } from '../../geom/segments.js';

/*
 * A flat drawing on its way into a DXF file: what stands on which layer, in mm, x right and y up.
 * It holds only what a cutting table understands: contours of lines and arcs, circles, points, strokes.
 */

/** What the table does with a thing is told by the layer it stands on. */
export type LayerName = 'CUT_OUTER' | 'CUT_INNER' | 'ETCH' | 'DRILL';

export interface Layer {
  readonly name: LayerName;
  /** AutoCAD colour index, so that the layers can be told apart on the screen. */
  readonly colour: number;
}

/** The layers of a cut file. The colours are told apart by their brightness too, not by hue alone. */
export const layers: readonly Layer[] = [
  { name: 'CUT_OUTER', colour: 7 },
  { name: 'CUT_INNER', colour: 4 },
  { name: 'ETCH', colour: 30 },
  { name: 'DRILL', colour: 5 },
];

/** A closed run of lines and arcs. */
interface Contour {
  readonly kind: 'contour';
  readonly layer: LayerName;
  readonly loop: Loop;
}

interface Circle {
  readonly kind: 'circle';
  readonly layer: LayerName;
  readonly centre: Point;
  readonly radius: number;
}

/** A place to drill. */
interface Spot {
  readonly kind: 'point';
  readonly layer: LayerName;
  readonly at: Point;
}

/** An open run of straight lines: one stroke of a mark. */
interface OpenStroke {
  readonly kind: 'stroke';
  readonly layer: LayerName;
  readonly points: Stroke;
}

export type Entity = Contour | Circle | Spot | OpenStroke;

export interface Drawing {
  readonly layers: readonly Layer[];
  readonly entities: readonly Entity[];
}

/** How a drawing is put down in a file. */
export interface DxfOptions {
  /**
   * `r2000`: closed LWPOLYLINEs with bulges (AC1015). `r12`: POLYLINE and VERTEX (AC1009), for old
   * importers. `r12-arcs`: single LINEs and ARCs, for importers that mangle bulges.
   */
  readonly flavour?: 'r2000' | 'r12' | 'r12-arcs';
  /** Inches for a table that reads nothing else: coordinates / 25.4, $INSUNITS 1. */
  readonly unit?: 'mm' | 'in';
  /**
   * Everything on layer 0, for a table that takes one layer. Such a table cuts whatever it finds, so
   * etched strokes are left out; cuts and drill points stay.
   */
  readonly oneLayer?: boolean;
}

/** Millimetres in an inch (exact since 1959). */
export const inch = 25.4;
