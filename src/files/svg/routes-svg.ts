import { tidy } from '../../base/numbers.js';
import { add, scale as times, type Vector } from '../../base/vectors.js';
import { place } from '../../base/frames.js';
import { boundsOf } from '../../geom/loops.js';
import type { RoutePicture } from '../../design/route-picture.js';
import { levelDimension, together, uprightDimension, type Piece } from './dimensions.js';
import { remarksPanel, scaleBar } from './panels.js';
import { drawnLine, escaped, ink, lines, mm, type SheetPoint } from './pen.js';
import { projections, type Projection } from './projections.js';
import { mouthPanel, primariesTable } from './route-panels.js';
import { ontoSheet, routeView, sizeOfView, type Region, type ViewPlace } from './route-view.js';
import { drawnWords, filled, words, type Words } from './words.js';

/** Blank edge of the sheet, room between views, and room for dimensions round them, mm. */
const MARGIN = 10;
const BETWEEN = 14;
const FOR_DIMENSION = 9;
/** What is drawn of the surroundings beyond tubes, flange and collector, mm of the header. */
const AROUND = 30;
/** Scales a shop draws in, and how wide and high the views may be: a sheet of A2 upright, mm. */
const SCALES = [1, 0.5, 0.4, 0.25, 0.2, 0.1, 0.05] as const;
const WIDEST = 400;
const HIGHEST = 480;

/** One colour a primary, told apart by the colour-blind (Okabe and Ito); names stand on the tubes besides. */
const palette = [ink.blue, ink.orange, ink.green, ink.vermilion, ink.sky, ink.purple, ink.yellow] as const;

const remarks = [
  'A picture to find your way by, not a template: saw by the cut list, and try the tacked header in the car before it is welded out.',
  'Keep hot tubes clear of fuel, brake lines and wiring; how much, local rules and the maker decide.',
];

/**
 * The routes for the wall of the shop: facing the head, from above and from the left, in one scale, tubes in
 * their true width. Sheet in mm; the same routes give the same bytes.
 */
export function routesSvg(picture: RoutePicture): string {
  const region = regionOf(picture);
  const { head, above, side } = projections;
  const sizes = {
    head: sizeOfView(head, region),
    above: sizeOfView(above, region),
    side: sizeOfView(side, region),
  };
  const [wide, high] = [sizes.head[0] + sizes.side[0], sizes.head[1] + sizes.above[1]];
  const scale =
    SCALES.find((each) => wide * each <= WIDEST && high * each <= HIGHEST) ?? (SCALES.at(-1) as number);
  const colours = new Map(picture.primaries.map(({ id }, i) => [id, palette[i % palette.length] as string]));
  const left = MARGIN + FOR_DIMENSION;
  const title = titleOf(picture, scale);
  const top = MARGIN + title.height + BETWEEN;
  const below = top + sizes.head[1] * scale + FOR_DIMENSION + BETWEEN;
  const beside = left + sizes.head[0] * scale + BETWEEN;
  const places: Readonly<Record<Projection['id'], ViewPlace>> = {
    head: { corner: [left, top], scale, region },
    side: { corner: [beside, top], scale, region },
    above: { corner: [left, below], scale, region },
  };
  const mouth = mouthPanel(picture, scale, colours, [beside, below]);
  const table = primariesTable(picture, colours, [beside, below + mouth.height + 4]);
  const width = Math.ceil(
    Math.max(
      beside + sizes.side[0] * scale,
      beside + mouth.width,
      beside + table.width,
      MARGIN + title.width,
    ) + MARGIN,
  );
  const viewsEnd =
    Math.max(below + sizes.above[1] * scale, below + mouth.height + 4 + table.height) + BETWEEN / 2;
  const bar = scaleBar([left, viewsEnd], scale);
  const foot = remarksPanel(remarks, width - 2 * MARGIN, [MARGIN, viewsEnd + bar.height + 4]);
  const height = Math.ceil(viewsEnd + bar.height + foot.height + 4 + MARGIN);
  const all = together(
    title,
    ...Object.values(projections).map((view) =>
      titled(view, places[view.id], routeView(picture, view, places[view.id], colours)),
    ),
    dimensions(picture, places),
    mouth,
    table,
    bar,
    foot,
  );
  return sheet(picture, width, height, scale, places, all);
}

/** All that the views show: tubes, flanges and collector with something round them. */
function regionOf({ primaries, od, plates, collector }: RoutePicture): Region {
  const points: Vector[] = [];
  const about = (at: Vector, radius: number): void => {
    const reach: Vector = [radius, radius, radius];
    points.push(add(at, reach), add(at, times(reach, -1)));
  };
  for (const { line } of primaries) for (let s = 0; s < line.length; s += 5) about(line.poseAt(s).at, od / 2);
  for (const { line } of primaries) about(line.end.at, od / 2);
  for (const { frame, thickness, outline } of plates) {
    const { left, right, bottom, top } = boundsOf(outline);
    for (const x of [left, right])
      for (const y of [bottom, top]) for (const z of [0, thickness]) points.push(place(frame, [x, y, z]));
  }
  if (collector)
    for (const at of [collector.body.from, collector.body.to]) about(at, collector.body.diameter / 2);
  const low = (i: 0 | 1 | 2): number => Math.min(...points.map((at) => at[i])) - AROUND;
  const high = (i: 0 | 1 | 2): number => Math.max(...points.map((at) => at[i])) + AROUND;
  return { low: [low(0), low(1), low(2)], high: [high(0), high(1), high(2)] };
}

/** A view with its name over it. */
const titled = ({ title }: Projection, { corner }: ViewPlace, view: Piece): Piece =>
  together(view, { drawn: [], words: [words(title, [corner[0], corner[1] - 3], 4, { weight: 'bold' })] });

/** Where the collector stands from the centre of port 1. */
function dimensions(
  { collector }: RoutePicture,
  places: Readonly<Record<Projection['id'], ViewPlace>>,
): Piece {
  if (collector === undefined) return together();
  const [right, up, out] = collector.at;
  const { head, side } = projections;
  const onHead = ontoSheet(head, places.head);
  const onSide = ontoSheet(side, places.side);
  const bottom = onHead(places.head.region.low)[1];
  const left = places.head.corner[0];
  const [zero, to] = [onHead([0, 0, 0]), onHead(collector.at)];
  const [sideZero, sideTo] = [onSide([0, 0, 0]), onSide(collector.at)];
  const span = (a: number, b: number): readonly [number, number] => [Math.min(a, b), Math.max(a, b)];
  return together(
    levelDimension(...span(zero[0], to[0]), bottom, bottom + FOR_DIMENSION - 3, tidy(Math.abs(right), 1)),
    uprightDimension(...span(zero[1], to[1]), left, left - FOR_DIMENSION + 3, tidy(Math.abs(up), 1)),
    levelDimension(
      ...span(sideZero[0], sideTo[0]),
      bottom,
      bottom + FOR_DIMENSION - 3,
      tidy(Math.abs(out), 1),
    ),
  );
}

function titleOf(
  { job, od, wall, primaries }: RoutePicture,
  scale: number,
): Piece & { readonly height: number; readonly width: number } {
  const lengths = primaries.map(({ line }) => line.length);
  const [least, most] = [Math.min(...lengths), Math.max(...lengths)];
  const facts = [
    `${primaries.length} primaries of ${tidy(od, 2)} x ${tidy(wall, 2)} mm tube`,
    `centre line ${tidy(least, 1) === tidy(most, 1) ? tidy(most, 1) : `${tidy(least, 1)} to ${tidy(most, 1)}`} mm`,
    `drawn 1:${tidy(1 / scale, 1)}`,
    'crosses: centre of port 1 and the collector; sizes in mm',
  ];
  const said: Words[] = [words(`Routes of ${job}`, [MARGIN, MARGIN + 6], 6.5, { weight: 'bold' })];
  filled(facts, '  ·  ', 3.2, 270).forEach((text, i) =>
    said.push(words(text, [MARGIN, MARGIN + 13 + 4.8 * i], 3.2)),
  );
  return { drawn: [], words: said, height: 8 + 4.8 * (said.length - 1), width: 270 };
}

function sheet(
  { job }: RoutePicture,
  width: number,
  height: number,
  scale: number,
  places: Readonly<Record<Projection['id'], ViewPlace>>,
  { drawn, words: said }: Piece,
): string {
  const origins = Object.values(projections).map((view) => {
    const [x, y]: SheetPoint = ontoSheet(view, places[view.id])([0, 0, 0]);
    return `data-${view.id}="${mm(x)} ${mm(y)}"`;
  });
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${mm(width)}mm" height="${mm(height)}mm" viewBox="0 0 ${mm(width)} ${mm(height)}" data-scale="${scale}" ${origins.join(' ')}>`,
    `<title>${escaped(`Routes of ${job}`)}</title>`,
    `<rect width="${mm(width)}" height="${mm(height)}" fill="${ink.paper}"/>`,
    '<g id="lines">',
    drawnLine([MARGIN, MARGIN + 8], [width - MARGIN, MARGIN + 8], lines.rule),
    ...drawn,
    '</g>',
    '<g id="words" font-family="sans-serif" fill="#000000">',
    ...said.map(drawnWords),
    '</g>',
    '</svg>\n',
  ].join('\n');
}
