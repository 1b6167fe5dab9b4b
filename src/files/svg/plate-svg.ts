import { tidy } from '../../base/numbers.js';
import type { PlatePart } from '../../design/parts.js';
import { boundsOf } from '../../geom/loops.js';
import { fileName } from '../file-name.js';
import { together, type Piece } from './dimensions.js';
import { featuresOf, type Feature } from './features.js';
import { featureTable, legend, remarksPanel, scaleBar } from './panels.js';
import { drawnLine, escaped, lines, mm } from './pen.js';
import { apartOf, pitchCircle, roomOfView, viewOf } from './view.js';
import { drawnWords, filled, words, wrapped, type Words } from './words.js';

/** Blank edge of the sheet, and room between its blocks, mm. */
const MARGIN = 10;
const BETWEEN = 8;
/** The narrowest sheet, and how wide one may grow so that bar and table stand side by side (A4 laid across), mm. */
const NARROWEST = 170;
const SIDE_BY_SIDE = 297;

/**
 * A flat part as a drawing for the person at the table or the bench: true size, with its overall dimensions,
 * the distances of its ports, a table of holes, a bar to prove the print's scale, and what to do and beware of.
 * Width and height are in mm and so is every number in it; the same part gives the same bytes.
 */
export function plateSvg(part: PlatePart): string {
  const features = featuresOf(part);
  const view = roomOfView(part, features);
  const table = featureTable(features, [0, 0]);
  const side = Math.max(scaleBar([0, 0]).width, legend(part, features, true, [0, 0]).width) + BETWEEN;
  const abreast = Math.max(view.width, side + table.width) + 2 * MARGIN;
  const stacked = Math.max(view.width, table.width, NARROWEST - 2 * MARGIN) + 2 * MARGIN;
  const width = Math.ceil(abreast <= Math.max(SIDE_BY_SIDE, stacked) ? Math.max(abreast, stacked) : stacked);
  const isAbreast = width >= side + table.width + 2 * MARGIN;

  const head = headOf(part, features, width - 2 * MARGIN);
  let down = MARGIN + head.height + BETWEEN / 2;
  const drawing = viewOf(part, features, [(width - view.width) / 2, down]);
  down += view.height + BETWEEN;
  const rule = drawnLine([MARGIN, down - BETWEEN / 2], [width - MARGIN, down - BETWEEN / 2], lines.thin);

  const bar = scaleBar([MARGIN, down + 2]);
  const key = legend(part, features, drawing.datum, [MARGIN, down + bar.height + 5]);
  const left = bar.height + 5 + key.height;
  const holes = featureTable(
    features,
    isAbreast
      ? [Math.min(width - MARGIN - table.width, MARGIN + side + 2 * BETWEEN), down]
      : [MARGIN, down + left + BETWEEN],
  );
  down += (isAbreast ? Math.max(left, holes.height) : left + BETWEEN + holes.height) + BETWEEN;
  const foot = remarksPanel(part.remarks, width - 2 * MARGIN, [MARGIN, down]);
  const footRule = drawnLine([MARGIN, down - BETWEEN / 2], [width - MARGIN, down - BETWEEN / 2], lines.rule);
  const height = Math.ceil(down + foot.height + MARGIN);

  const all = together(head, { drawn: [rule, footRule], words: [] }, drawing, bar, key, holes, foot);
  return sheet(part, width, height, all);
}

/** Title, view and the facts that settle whether this is the right piece of plate. */
function headOf(
  part: PlatePart,
  features: readonly Feature[],
  room: number,
): Piece & { readonly height: number } {
  const { left, right, bottom, top } = boundsOf(part.outline);
  const ring = pitchCircle(features);
  const pair = apartOf(features);
  const { found, where } = part.leastWeb;
  const facts = [
    `${part.material}, ${tidy(part.thickness)} mm thick`,
    `overall ${tidy(right - left, 2)} x ${tidy(top - bottom, 2)} mm`,
    ...(ring ? [`tube holes' middles on a circle Ø ${tidy(2 * ring.radius, 2)}`] : []),
    ...(pair === undefined ? [] : [`middles ${tidy(pair, 2)} mm apart`]),
    ...(Number.isFinite(found) && where !== '' ? [`least web ${tidy(found, 2)} mm: ${where}`] : []),
    `cut file ${fileName(part, 'dxf')}`,
    'sizes in mm, drawn 1:1',
  ];
  const said: Words[] = [];
  let down = MARGIN + 6;
  const line = (text: string, size: number, weight: Words['weight'], feed: number): void => {
    said.push(words(text, [MARGIN, down], size, { weight }));
    down += feed;
  };
  // Bold letters take an eighth more room.
  for (const text of wrapped(part.title, 6.5 * 1.125, room)) line(text, 6.5, 'bold', 7.5);
  for (const text of wrapped(`Drawn as ${part.view}.`, 4.5 * 1.125, room)) line(text, 4.5, 'bold', 6);
  for (const text of filled(facts, '  ·  ', 3.2, room)) line(text, 3.2, 'normal', 4.8);
  return {
    words: said,
    drawn: [drawnLine([MARGIN, down - 1.5], [MARGIN + room, down - 1.5], lines.rule)],
    height: down - MARGIN,
  };
}

function sheet(part: PlatePart, width: number, height: number, { drawn, words }: Piece): string {
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${mm(width)}mm" height="${mm(height)}mm" viewBox="0 0 ${mm(width)} ${mm(height)}">`,
    `<title>${escaped(`${part.title}, ${part.view}`)}</title>`,
    `<rect width="${mm(width)}" height="${mm(height)}" fill="#ffffff"/>`,
    '<g id="lines">',
    ...drawn,
    '</g>',
    '<g id="words" font-family="sans-serif" fill="#000000">',
    ...words.map(drawnWords),
    '</g>',
    '</svg>\n',
  ].join('\n');
}
