import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { routePicture, type RoutePicture } from '../../src/design/route-picture.js';
import { linesByHand } from '../../src/design/routes-by-hand.js';
import { measureRoutesSvg, routesSvg } from '../../src/files/index.js';
import { twinJob } from '../design/cradle-jobs.js';

/** Out 120, a quarter turn to the right, 200 along; twice, 500 apart: seen from above two plain hooks. */
function picture(sections: Record<string, unknown> = {}): RoutePicture {
  const job = twinJob({
    keep_outs: [
      { name: 'brake <line> & hose', capsule: { from: [-40, 60, 40], to: [640, 60, 40], diameter: 20 } },
    ],
    ...sections,
  });
  const found = routePicture(job, linesByHand(job));
  if (found === undefined) throw new Error('nothing to draw');
  return found;
}

const attribute = (text: string, name: string): string =>
  new RegExp(` ${name}="([^"]*)"`).exec(text)?.[1] ?? '';
const bandsOf = (svg: string, view: string, primary: string): string[] =>
  [...svg.matchAll(/<polyline class="tube"[^>]*>/g)]
    .map(([band]) => band)
    .filter((band) => attribute(band, 'data-view') === view && attribute(band, 'data-primary') === primary);

describe('the picture of routes', () => {
  const svg = routesSvg(picture());
  const scale = Number(attribute(svg, 'data-scale'));

  it('from above the bend of P1 lies on the circle about (63.6, 130 out), the straights on their lines', () => {
    // The plate is 10 thick: the bend begins 130 out, its centre 63.6 to the right of it; it ends 193.6 out.
    const [x0 = NaN, y0 = NaN] = attribute(svg, 'data-above').split(' ').map(Number);
    const points = bandsOf(svg, 'above', 'P1').flatMap((band) =>
      attribute(band, 'points')
        .split(' ')
        .map((pair) => pair.split(',').map(Number))
        .map(([x = NaN, y = NaN]) => [(x - x0) / scale, (y - y0) / scale] as const),
    );
    expect(points.length).toBeGreaterThan(60);
    for (const [right, out] of points) {
      const off =
        out <= 130 ? right : right >= 63.6 ? out - 193.6 : Math.hypot(right - 63.6, out - 130) - 63.6;
      expect(Math.abs(off)).toBeLessThan(0.01 / scale);
    }
    expect(Math.min(...points.map(([, out]) => out))).toBeCloseTo(10, 1);
    expect(Math.max(...points.map(([right]) => right))).toBeCloseTo(263.6, 1);
  });

  it('tubes are as wide as they are, and the bar is 100 mm of the header', () => {
    for (const band of bandsOf(svg, 'head', 'P2'))
      expect(Number(attribute(band, 'stroke-width')) / scale).toBeCloseTo(42.4, 2);
    const bar = /<line id="scale-bar"[^>]*>/.exec(svg)?.[0] ?? '';
    expect((Number(attribute(bar, 'x2')) - Number(attribute(bar, 'x1'))) / scale).toBeCloseTo(100, 2);
  });

  it('each primary has a colour of its own from the palette of Okabe and Ito (2008): blue, orange', () => {
    const colours = ['P1', 'P2'].map(
      (id) => new Set(bandsOf(svg, 'side', id).map((band) => attribute(band, 'stroke'))),
    );
    expect(colours.map((each) => [...each])).toEqual([['#0072B2'], ['#E69F00']]);
  });

  it('what is nearer is drawn later: from the left P1 covers P2, which stands 500 behind it', () => {
    const order = [...svg.matchAll(/data-view="side" data-primary="(P\d)"/g)].map((match) => match[1]);
    expect(order.indexOf('P1')).toBeGreaterThan(
      order.lastIndexOf('P2') - order.filter((id) => id === 'P2').length,
    );
    expect(order.at(-1)).toBe('P1');
    expect(order[0]).toBe('P2');
  });

  it('names every primary in each view and in the table, and writes signs of XML as words', () => {
    const said = [...svg.matchAll(/<text [^>]*>([^<]*)<\/text>/g)].map((match) => match[1]);
    for (const id of ['P1', 'P2']) expect(said.filter((text) => text === id)).toHaveLength(4);
    expect(said).toContain('brake &lt;line&gt; &amp; hose');
    for (const title of ['Facing the head', 'From above', 'From the left']) expect(said).toContain(title);
  });

  it('the same routes give the same bytes, and rsvg draws them without a word', (context) => {
    expect(routesSvg(picture())).toBe(svg);
    context.skip(spawnSync('rsvg-convert', ['--version']).status !== 0, 'skipped: needs librsvg2-bin');
    const folder = mkdtempSync(path.join(tmpdir(), 'tackwright-routes-'));
    writeFileSync(path.join(folder, 'routes.svg'), svg);
    const run = spawnSync('rsvg-convert', ['routes.svg', '-o', 'routes.png'], {
      cwd: folder,
      encoding: 'utf8',
    });
    rmSync(folder, { recursive: true });
    expect([run.status, run.stderr]).toEqual([0, '']);
  });
});

describe('measured after writing', () => {
  const shown = picture();
  const svg = routesSvg(shown);
  const failed = (text: string, of = shown): string[] =>
    measureRoutesSvg(text, of)
      .filter(({ ok }) => !ok)
      .map(({ what }) => what);

  it('as written every measure passes: 3 views x 2 primaries x 3, and 3 + 3 of the sheet', () => {
    expect(failed(svg)).toEqual([]);
    expect(measureRoutesSvg(svg, shown)).toHaveLength(3 * 2 * 3 + 3 + 3);
  });

  it.each<readonly [string, (text: string) => string, RegExp]>([
    [
      'a band moved by a millimetre',
      (text) =>
        text.replace(
          /(data-view="above" data-primary="P1" points=")([\d.]+)/,
          (_, head: string, x: string) => `${head}${Number(x) + 1}`,
        ),
      /From above: P1, points off/,
    ],
    [
      'a band left out',
      (text) => text.replace(/<polyline class="tube" data-view="above" data-primary="P2"[^>]*>/, ''),
      /From above: P2, centre line off its bands/,
    ],
    [
      'a band too thin',
      (text) => text.replace(/(data-view="side" data-primary="P1" [^>]*stroke-width=")[\d.]+/, '$14'),
      /From the left: P1, width off/,
    ],
    [
      'a primary under another name',
      (text) => text.replaceAll('data-view="side" data-primary="P2"', 'data-view="side" data-primary="P1"'),
      /From the left: primaries/,
    ],
    ['a sheet of another size', (text) => text.replace(/ height="[\d.]+mm"/, ' height="100mm"'), /view box/],
    ['a bar too short', (text) => text.replace(/(id="scale-bar" x1=")[\d.]+/, '$130'), /scale bar/],
  ])('%s is found', (_, spoil, what) => {
    const spoilt = spoil(svg);
    expect(spoilt).not.toBe(svg);
    expect(failed(spoilt).join('\n')).toMatch(what);
  });

  it('routes other than those drawn are found', () => {
    const other = picture({
      primaries: {
        by_hand: {
          P1: [{ straight: 121 }, { clr: 63.6, angle: 90, clock: -90 }, { straight: 199 }],
          P2: [{ straight: 120 }, { clr: 63.6, angle: 90, clock: -90 }, { straight: 200 }],
        },
      },
    });
    expect(failed(svg, other).join()).toContain('P1, points off');
  });
});
