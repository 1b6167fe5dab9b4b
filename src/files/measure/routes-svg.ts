import { clamp } from '../../base/numbers.js';
import { distance, dot, minus, plus, times, type Point } from '../../base/points.js';
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
/** No place of the centre line lies farther than this from the middle of a band, mm of the header: chords of bends. */
const COVERED = 0.2;

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
      const runs = own.map((band) =>
        pairsIn(attributeOf(band, 'points')).map(([x, y]): Point => [(x - x0) / scale, (y0 - y) / scale]),
      );
      const samples = samplesOf(line).map(view.flat);
      const off = Math.max(...runs.flat().map((point) => nearestOf(samples, point)));
      const gap = Math.max(...samples.map((sample) => fromRuns(runs, sample)));
      const name = `${view.title}: ${id}`;
      gauge.atMost(`${name}, points off its centre line`, 0, off, 'mm', SAMPLE / 2 + WRITTEN / scale);
      gauge.atMost(`${name}, centre line off its bands`, 0, gap, 'mm', COVERED);
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

function nearestOf(points: readonly Point[], [x, y]: Point): number {
  let best = Infinity;
  for (const [px, py] of points) best = Math.min(best, (px - x) ** 2 + (py - y) ** 2);
  return Math.sqrt(best);
}

/** How far a place lies from the nearest stretch of any run. */
function fromRuns(runs: readonly (readonly Point[])[], at: Point): number {
  let best = Infinity;
  for (const run of runs)
    run.slice(1).forEach((to, i) => {
      const from = run[i] ?? to;
      const along = minus(to, from);
      const long = dot(along, along);
      const share = long === 0 ? 0 : clamp(dot(minus(at, from), along) / long, 0, 1);
      best = Math.min(best, distance(at, plus(from, times(along, share))));
    });
  return best;
}
