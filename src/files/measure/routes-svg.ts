import type { Vector } from '../../base/vectors.js';
import type { RoutePicture } from '../../design/route-picture.js';
import type { CentreLine } from '../../geom/centre-line.js';
import { projections } from '../svg/projections.js';
import { startGauge, type Measure } from './measure.js';

const reader = 'SVG read back';

/** Coordinates are written to a thousandth of a millimetre of paper. */
const WRITTEN = 0.002;
/** Points found on the centre line lie within this of its samples, taken this far apart, mm of the header. */
const SAMPLE = 0.5;
/** The bands of a tube follow each other without a gap: mm of the header. */
const FOLLOW = 6;

/**
 * Measures a picture of routes as written: in each of its three views every primary is there, its band runs along
 * the centre line from end to end in the tube's true width, and the sheet's size and scale bar are right.
 */
export function measureRoutesSvg(text: string, picture: RoutePicture): readonly Measure[] {
  const gauge = startGauge('routes', reader);
  const root = /<svg [^>]*>/.exec(text)?.[0] ?? '';
  const [, , width = NaN, height = NaN] = numbersIn(attributeOf(root, 'viewBox'));
  gauge.word(
    'view box in mm',
    `${width}mm x ${height}mm`,
    `${attributeOf(root, 'width')} x ${attributeOf(root, 'height')}`,
  );
  const scale = Number(attributeOf(root, 'data-scale'));
  const bar = /<line id="scale-bar"[^>]*>/.exec(text)?.[0] ?? '';
  const long = Number(attributeOf(bar, 'x2')) - Number(attributeOf(bar, 'x1'));
  gauge.size('scale bar, on the header', 100, long / scale, 'mm', WRITTEN / scale);
  const bands = [...text.matchAll(/<polyline class="tube"[^>]*>/g)].map(([band]) => band);
  for (const view of Object.values(projections)) {
    const [x0 = NaN, y0 = NaN] = numbersIn(attributeOf(root, `data-${view.id}`));
    const here = bands.filter((band) => attributeOf(band, 'data-view') === view.id);
    const drawn = new Set(here.map((band) => attributeOf(band, 'data-primary')));
    gauge.count(`${view.title}: primaries`, picture.primaries.length, drawn.size);
    for (const { id, line } of picture.primaries) {
      const own = here.filter((band) => attributeOf(band, 'data-primary') === id);
      const points = own.flatMap((band) => pairsIn(attributeOf(band, 'points')));
      const onHeader = points.map(([x, y]) => [(x - x0) / scale, (y0 - y) / scale] as const);
      const samples = samplesOf(line).map(view.flat);
      const { off, gap } = followed(samples, onHeader);
      const name = `${view.title}: ${id}`;
      gauge.atMost(`${name}, points off its centre line`, 0, off, 'mm', SAMPLE / 2 + WRITTEN / scale);
      gauge.atMost(`${name}, centre line without a point within`, FOLLOW, gap, 'mm', 0);
      const widths = own.map((band) => Number(attributeOf(band, 'stroke-width')) / scale);
      const wrong = Math.max(...widths.map((each) => Math.abs(each - picture.od)));
      gauge.atMost(`${name}, width off by`, 0, wrong, 'mm', WRITTEN / scale);
    }
  }
  gauge.count(
    'points outside the sheet',
    0,
    bands
      .flatMap((band) => pairsIn(attributeOf(band, 'points')))
      .filter(([x, y]) => !(x >= 0 && y >= 0 && x <= width && y <= height)).length,
  );
  return gauge.measures;
}

const attributeOf = (element: string, name: string): string =>
  new RegExp(` ${name}="([^"]*)"`).exec(element)?.[1] ?? '';

const numbersIn = (text: string): readonly number[] => text.split(/[\s,]+/).map(Number);

const pairsIn = (text: string): readonly (readonly [number, number])[] =>
  text.split(' ').map((pair) => {
    const [x = NaN, y = NaN] = pair.split(',').map(Number);
    return [x, y];
  });

const samplesOf = (line: CentreLine): readonly Vector[] => {
  const count = Math.ceil(line.length / SAMPLE);
  return Array.from({ length: count + 1 }, (_, i) => line.poseAt((line.length * i) / count).at);
};

/** How far points lie off a line of samples, and the largest distance of a sample from the nearest point. */
function followed(
  samples: readonly (readonly [number, number])[],
  points: readonly (readonly [number, number])[],
): { readonly off: number; readonly gap: number } {
  if (points.length === 0) return { off: Infinity, gap: Infinity };
  const nearest = (from: readonly [number, number], others: typeof points): number => {
    let best = Infinity;
    for (const [x, y] of others) {
      const far = (x - from[0]) ** 2 + (y - from[1]) ** 2;
      if (far < best) best = far;
    }
    return Math.sqrt(best);
  };
  return {
    off: Math.max(...points.map((point) => nearest(point, samples))),
    gap: Math.max(...samples.map((sample) => nearest(sample, points))),
  };
}
