import { tidy } from '../../base/numbers.js';
import type { Point } from '../../base/points.js';
import type { Loop, Stroke } from '../../geom/segments.js';

/*
 * SVG as text. One user unit is one millimetre; y runs down on the sheet and up on the part, so everything
 * of the part is turned over on its way here. Colours are those of Okabe and Ito, which stay apart for the
 * colour-blind; every kind of line differs in weight or dashes as well.
 */

/** A place on the sheet: x right, y down, mm. */
export type SheetPoint = readonly [x: number, y: number];

/** From the part's drawing to the sheet. */
export type ToSheet = (at: Point) => SheetPoint;

export const ink = {
  black: '#000000',
  grey: '#555555',
  blue: '#0072B2',
  vermilion: '#D55E00',
  green: '#009E73',
  orange: '#E69F00',
  sky: '#56B4E9',
  purple: '#CC79A7',
  yellow: '#F0E442',
  /** Of plates, of what is in the way, and of nothing. */
  steel: '#D9D9D9',
  shade: '#F4F4F4',
  paper: '#FFFFFF',
} as const;

/** How a kind of line is drawn. */
export interface LineStyle {
  readonly colour: string;
  readonly width: number;
  readonly dashes?: string;
}

/** The kinds of lines of a plate's drawing. */
export const lines = {
  cut: { colour: ink.black, width: 0.5 },
  etched: { colour: ink.blue, width: 0.3 },
  drilled: { colour: ink.vermilion, width: 0.35, dashes: '1.6 0.8' },
  pocket: { colour: ink.green, width: 0.35, dashes: '3 1' },
  thin: { colour: ink.grey, width: 0.18 },
  chain: { colour: ink.grey, width: 0.18, dashes: '5 1 0.6 1' },
  rule: { colour: ink.black, width: 0.25 },
  neighbour: { colour: '#A0A0A0', width: 0.25, dashes: '2.5 1' },
} as const satisfies Record<string, LineStyle>;

/** A length or coordinate as written: three decimals are a thousandth of a millimetre. */
export const mm = (value: number): string => tidy(value, 3);

const pair = ([x, y]: SheetPoint): string => `${mm(x)} ${mm(y)}`;

export const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

/** Attributes that draw a line of some kind. */
const stroked = ({ colour, width, dashes }: LineStyle): string =>
  `fill="none" stroke="${colour}" stroke-width="${mm(width)}"${dashes === undefined ? '' : ` stroke-dasharray="${dashes}"`}`;

/** The path of a loop: arcs stay arcs, and a turn to the left on the part is one to the left on the sheet. */
function pathOf(loop: Loop, toSheet: ToSheet): string {
  const [first] = loop;
  if (!first) return '';
  const steps = loop.map((edge) => {
    const to = pair(toSheet(edge.to));
    if (edge.kind === 'line') return `L${to}`;
    const large = Math.abs(edge.sweep) > Math.PI ? 1 : 0;
    return `A${mm(edge.radius)} ${mm(edge.radius)} 0 ${large} ${edge.sweep > 0 ? 0 : 1} ${to}`;
  });
  return `M${pair(toSheet(first.from))}${steps.join('')}Z`;
}

export const drawnLoop = (loop: Loop, style: LineStyle, toSheet: ToSheet): string =>
  `<path d="${pathOf(loop, toSheet)}" ${stroked(style)}/>`;

export const drawnStroke = (stroke: Stroke, style: LineStyle, toSheet: ToSheet): string =>
  `<polyline points="${stroke.map((at) => toSheet(at).map(mm).join()).join(' ')}" ${stroked(style)} stroke-linecap="round" stroke-linejoin="round"/>`;

export const drawnLine = (from: SheetPoint, to: SheetPoint, style: LineStyle, id?: string): string =>
  `<line${id === undefined ? '' : ` id="${id}"`} x1="${mm(from[0])}" y1="${mm(from[1])}" x2="${mm(to[0])}" y2="${mm(to[1])}" ${stroked(style)}/>`;

export const drawnCircle = (centre: SheetPoint, radius: number, style: LineStyle): string =>
  `<circle cx="${mm(centre[0])}" cy="${mm(centre[1])}" r="${mm(radius)}" ${stroked(style)}/>`;

/** A cross of two strokes. */
export const drawnCross = ([x, y]: SheetPoint, arm: number, style: LineStyle): string =>
  drawnLine([x - arm, y], [x + arm, y], style) + drawnLine([x, y - arm], [x, y + arm], style);

/** A closed area with its edge. */
export const areaOf = (
  corners: readonly SheetPoint[],
  fill: string,
  { colour, width, dashes }: LineStyle,
): string =>
  `<polygon points="${corners.map((at) => at.map(mm).join()).join(' ')}" fill="${fill}" stroke="${colour}" stroke-width="${mm(width)}"${dashes === undefined ? '' : ` stroke-dasharray="${dashes}"`}/>`;

/** Whether a place lies within an area. */
export function areaAbout(corners: readonly SheetPoint[], [x, y]: SheetPoint): boolean {
  let inside = false;
  corners.forEach(([ax, ay], i) => {
    const [bx, by] = corners[(i + 1) % corners.length] ?? [ax, ay];
    if (ay > y !== by > y && x < ax + ((bx - ax) * (y - ay)) / (by - ay)) inside = !inside;
  });
  return inside;
}

/** How wide a tube's edge is drawn on either side of it, mm. */
const TUBE_EDGE = 0.25;

/** A run of a tube on the sheet: its band reaches a little beyond its edges, so that no seam shows. */
export interface DrawnRun {
  readonly band: readonly SheetPoint[];
  readonly edge: readonly SheetPoint[];
}

/** A run of a tube: its edge, then its band in true width along its centre line, then the centre line. */
export function drawnTube(
  { band, edge }: DrawnRun,
  width: number,
  colour: string,
  { view, primary }: { readonly view: string; readonly primary: string },
): string {
  const line = (run: readonly SheetPoint[], kind: string, stroke: string, wide: number): string =>
    `<polyline${kind} points="${run.map((at) => at.map(mm).join()).join(' ')}" fill="none" stroke="${stroke}" stroke-width="${mm(wide)}"/>`;
  return (
    line(edge, '', ink.black, width + 2 * TUBE_EDGE) +
    line(band, ` class="tube" data-view="${view}" data-primary="${primary}"`, colour, width) +
    line(edge, '', ink.black, 0.15)
  );
}
