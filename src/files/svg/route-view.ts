import type { Point } from '../../base/points.js';
import type { Vector } from '../../base/vectors.js';
import { place } from '../../base/frames.js';
import type { RoutePicture } from '../../design/route-picture.js';
import { chordsOf } from '../../geom/chords.js';
import type { CentreLine } from '../../geom/centre-line.js';
import type { Piece } from './dimensions.js';
import { badge, placeBadges, placeNames, type Crowd } from './route-labels.js';
import { areaOf, drawnCross, drawnTube, ink, lines, mm, type DrawnRun, type SheetPoint } from './pen.js';
import { cylinderOutline, hullOf, keepOutOutline, type Projection } from './projections.js';

/** Part of the engine's space that is drawn, mm. */
export interface Region {
  readonly low: Vector;
  readonly high: Vector;
}

/** A view on the sheet: where its upper left corner stands, and how many mm of paper a mm of header takes. */
export interface ViewPlace {
  readonly corner: SheetPoint;
  readonly scale: number;
  readonly region: Region;
}

/** From the header to the sheet. */
export type Onto = (at: Vector) => SheetPoint;

/** A tube is drawn in runs no longer than this, each as near as its middle; points stand no farther apart than that (mm). */
const RUN = 20;
const POINTS = 4;

/** How wide and high a view is on the header, mm. */
export function sizeOfView({ flat }: Projection, { low, high }: Region): readonly [number, number] {
  const [a, b] = [flat(low), flat(high)];
  return [Math.abs(b[0] - a[0]), Math.abs(b[1] - a[1])];
}

/** Where a place of the header stands on the sheet. */
export function ontoSheet({ flat }: Projection, { corner, scale, region }: ViewPlace): Onto {
  const [a, b] = [flat(region.low), flat(region.high)];
  const [left, top] = [Math.min(a[0], b[0]), Math.max(a[1], b[1])];
  return (at) => {
    const [x, y] = flat(at);
    return [corner[0] + (x - left) * scale, corner[1] + (top - y) * scale];
  };
}

/**
 * One view: what is in the way in light outlines, then plates, tubes and collector from the farthest to the
 * nearest, so that what is nearer covers what is behind it.
 */
export function routeView(
  picture: RoutePicture,
  view: Projection,
  at: ViewPlace,
  colours: ReadonlyMap<string, string>,
): Piece {
  const onto = ontoSheet(view, at);
  const [wide, high] = sizeOfView(view, at.region).map((size) => size * at.scale) as [number, number];
  const clip = `clip-${view.id}`;
  const flatOnto = flatter(view, onto);
  const inTheWay = picture.keepOuts.flatMap(({ name, shape }) => {
    const outline = keepOutOutline(view, shape);
    return outline === undefined ? [] : [{ name, outline: outline.map(flatOnto) }];
  });
  const collector = picture.collector
    ? [{ name: 'collector', outline: cylinderOutline(view, picture.collector.body).map(flatOnto) }]
    : [];
  const runs = picture.primaries.flatMap(({ id, line }) =>
    runsOf(line, view, onto).map((run) => ({ ...run, id })),
  );
  const scene = [
    ...picture.plates.map(({ frame, thickness, outline }) => {
      const flat = chordsOf(outline, 0.2);
      const corners = [0, thickness].flatMap((z) => flat.map(([x, y]) => place(frame, [x, y, z])));
      const facing = view.near(frame.out) > 0.99;
      const shown = facing
        ? flat.map(([x, y]) => view.flat(place(frame, [x, y, thickness])))
        : hullOf(view, corners);
      const near = middle(corners.map(view.near));
      return { near, drawn: areaOf(shown.map(flatOnto), ink.steel, lines.rule) };
    }),
    ...(picture.collector
      ? [
          {
            near: middle([view.near(picture.collector.body.from), view.near(picture.collector.body.to)]),
            drawn: areaOf(cylinderOutline(view, picture.collector.body).map(flatOnto), ink.paper, lines.rule),
          },
          ...picture.collector.sleeves.map((sleeve) => ({
            near: middle([view.near(sleeve.from), view.near(sleeve.to)]) + sleeve.diameter / 2,
            drawn: areaOf(cylinderOutline(view, sleeve).map(flatOnto), 'none', lines.rule),
          })),
        ]
      : []),
    ...runs.map(({ id, near, ...run }) => ({
      near,
      drawn: drawnTube(run, picture.od * at.scale, colours.get(id) ?? ink.grey, {
        view: view.id,
        primary: id,
      }),
    })),
  ].sort((a, b) => a.near - b.near);
  const crowd: Crowd = {
    points: runs.flatMap(({ id, near, edge }) => edge.map((point) => ({ id, near, at: point }))),
    reach: (picture.od * at.scale) / 2,
    within: {
      left: at.corner[0],
      top: at.corner[1],
      right: at.corner[0] + wide,
      bottom: at.corner[1] + high,
    },
  };
  const badges = placeBadges(
    crowd,
    picture.primaries.map(({ id }) => id),
  );
  return {
    drawn: [
      `<clipPath id="${clip}"><rect x="${mm(at.corner[0])}" y="${mm(at.corner[1])}" width="${mm(wide)}" height="${mm(high)}"/></clipPath>`,
      `<g id="view-${view.id}" clip-path="url(#${clip})">`,
      ...inTheWay.map(({ outline }) => areaOf(outline, ink.shade, { ...lines.neighbour, colour: ink.shade })),
      ...inTheWay.map(({ outline }) => areaOf(outline, 'none', lines.neighbour)),
      ...scene.map(({ drawn }) => drawn),
      drawnCross(onto([0, 0, 0]), 2.5, lines.rule),
      ...(picture.collector ? [drawnCross(onto(picture.collector.at), 2.5, lines.rule)] : []),
      '</g>',
      ...badges.map(({ at: spot }) => badge(spot)),
    ],
    words: [
      ...badges.map(({ words }) => words),
      ...placeNames(
        [...inTheWay, ...collector],
        crowd,
        badges.map(({ at: spot }) => spot),
      ),
    ],
  };
}

const middle = (values: readonly number[]): number => (Math.min(...values) + Math.max(...values)) / 2;

/** A place that is flat already onto the sheet. */
function flatter(view: Projection, onto: Onto): (at: Point) => SheetPoint {
  const zero = onto([0, 0, 0]);
  const [unit] = [onto([1, 1, 1])];
  const one = view.flat([1, 1, 1]);
  const [sx, sy] = [(unit[0] - zero[0]) / one[0], (unit[1] - zero[1]) / one[1]];
  return ([x, y]) => [zero[0] + x * sx, zero[1] + y * sy];
}

interface Run extends DrawnRun {
  readonly near: number;
}

/** A tube in runs. Edges reach one point into the neighbours, bands two: what is drawn later leaves no seam. */
function runsOf(line: CentreLine, view: Projection, onto: Onto): readonly Run[] {
  const count = Math.max(1, Math.ceil(line.length / RUN));
  const steps = Math.ceil(RUN / POINTS);
  const step = line.length / count / steps;
  const at = (k: number): Vector => line.poseAt(Math.min(line.length, k * step)).at;
  const between = (from: number, to: number): readonly SheetPoint[] => {
    const [low, high] = [Math.max(0, from), Math.min(count * steps, to)];
    return Array.from({ length: high - low + 1 }, (_, k) => onto(at(low + k)));
  };
  return Array.from({ length: count }, (_, i): Run => {
    const [from, to] = [i * steps, (i + 1) * steps];
    return {
      near: view.near(line.poseAt((from + to) * 0.5 * step).at),
      edge: between(from - 1, to + 1),
      band: between(from - 2, to + 2),
    };
  });
}
