import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { PlatePart } from '../../src/design/parts.js';
import { circleLoop } from '../../src/geom/loops.js';
import { plateSvg } from '../../src/files/svg/plate-svg.js';
import { widthOf } from '../../src/files/svg/words.js';
import { roundedBox, samplePlate } from './sample-plate.js';

/** An invented merge plate: four leaning tubes about a star hole, on a pitch circle of 60, eight bolts round them. */
const mergePlate: PlatePart = {
  ...samplePlate,
  name: 'merge-plate',
  title: 'Merge plate <4 into 1> & "star"',
  outline: circleLoop([0, 0], 75),
  openings: [0, 1, 2, 3].map((i) => ({
    name: `tube S${i + 1}`,
    loop: circleLoop([30 * Math.cos((i * Math.PI) / 2), 30 * Math.sin((i * Math.PI) / 2)], 20),
    exact: undefined,
  })),
  holes: [
    { name: 'star', at: [0, 0], diameter: 12, made: 'cut' },
    ...Array.from({ length: 8 }, (_, i) => {
      const turn = (i + 0.5) * (Math.PI / 4);
      return {
        name: `bolt ${i + 1}`,
        at: [65 * Math.cos(turn), 65 * Math.sin(turn)],
        diameter: 8.5,
        made: 'drilled',
      } as const;
    }),
  ],
  pockets: [],
  marks: [],
  view: 'seen looking upstream',
  remarks: Array.from(
    { length: 6 },
    (_, i) => `Remark ${i + 1}: ${'a longer line of words that must be broken '.repeat(i)}`,
  ),
  leastWeb: { asked: 2, found: 2.43, where: 'tube S1 and tube S2' },
};

/** A small plate crowded with holes: most of their numbers find no room beside them. */
const crowded: PlatePart = {
  ...samplePlate,
  name: 'strap',
  title: 'Strap',
  outline: roundedBox(64, 26, 3),
  openings: [],
  holes: Array.from({ length: 12 }, (_, i) => ({
    name: `stud ${i + 1}`,
    at: [-27.5 + (i % 6) * 11, i < 6 ? 6 : -6],
    diameter: 7.5,
    made: i % 2 === 0 ? 'drilled' : 'cut',
  })),
  pockets: [],
  marks: [],
  remarks: [],
  leastWeb: { asked: 3, found: 3.25, where: 'stud 1 and the outline' },
};
const plates = [samplePlate, mergePlate, crowded];

const attribute = (svg: string, name: string): string =>
  new RegExp(` ${name}="([^"]*)"`).exec(svg)?.[1] ?? '';
const textsOf = (svg: string): readonly string[] =>
  [...svg.matchAll(/<text [^>]*>([^<]*)<\/text>/g)].map(([, text = '']) => text);

describe('true scale', () => {
  test.each(plates.map((part) => ({ name: part.name, part })))(
    '$name: width and height are the view box, in mm',
    ({ part }) => {
      const svg = plateSvg(part);
      const [, , width, height] = attribute(svg, 'viewBox').split(' ');
      expect(attribute(svg, 'width')).toBe(`${width}mm`);
      expect(attribute(svg, 'height')).toBe(`${height}mm`);
    },
  );

  test('the bar is one straight line of 100 mm with its words beside it', () => {
    const svg = plateSvg(samplePlate);
    const bar = /<line id="scale-bar"[^>]*>/.exec(svg)?.[0] ?? '';
    expect(Number(attribute(bar, 'x2')) - Number(attribute(bar, 'x1'))).toBe(100);
    expect(attribute(bar, 'y2')).toBe(attribute(bar, 'y1'));
    expect(textsOf(svg)).toContain('100 mm: print at 100 %, measure this bar.');
  });

  test('the outline is 240 x 90 on the sheet, and its notch opens upward as on the part', () => {
    const path = [...plateSvg(samplePlate).matchAll(/<path d="([^"]*)"/g)]
      .map(([, d = '']) => d)
      .find((d) => d.includes('A12 12'));
    const ends = [
      ...(path ?? '').matchAll(/([ML ]|A\S+ \S+ 0 [01] [01] )(-?[\d.]+) (-?[\d.]+)(?=[LAZ])/g),
    ].map((m) => [Number(m[2]), Number(m[3])] as const);
    const [across, down] = [ends.map(([x]) => x), ends.map(([, y]) => y)];
    expect(Math.max(...across) - Math.min(...across)).toBeCloseTo(240, 3);
    expect(Math.max(...down) - Math.min(...down)).toBeCloseTo(90, 3);
    // The notch runs clockwise round the metal's hollow seen on the part; flag 1 is clockwise on a sheet with y down.
    expect(/A12 12 0 0 1 (-?[\d.]+) (-?[\d.]+)/.exec(path ?? '')?.[2]).toBe(String(Math.min(...down)));
  });

  test('rendered by rsvg at ten pixels a millimetre (254 dpi), the sheet and its bar have their true size', (context) => {
    context.skip(!tools, 'skipped: needs librsvg2-bin and imagemagick');
    const svg = plateSvg(samplePlate);
    const [, , width, height] = attribute(svg, 'viewBox').split(' ').map(Number);
    const bar = /<line id="scale-bar"[^>]*>/.exec(svg)?.[0] ?? '';
    const bare = rendered(svg.replace(/<g id="lines">.*<\/g>/s, bar), 'bar', 254);
    expect([pixels([bare], '-format', '%w'), pixels([bare], '-format', '%h')]).toEqual([
      (width ?? 0) * 10,
      (height ?? 0) * 10,
    ]);
    expect(Math.abs(pixels([bare], '-trim', '-format', '%w') - 1000)).toBeLessThanOrEqual(1);
  });
});

describe('what is said', () => {
  test('the side it is seen from, the overall size, the cut file and every remark', () => {
    const said = textsOf(plateSvg(samplePlate)).join('\n');
    for (const words of [
      'Drawn as seen from the tube side.',
      'overall 240 x 90 mm',
      'flange_240x90x10-mm.dxf',
      'TUBE SIDE lies up on the table.',
      '10 mm thick',
    ])
      expect(said).toContain(words);
  });

  test('every hole stands in the table with its place and size, and its tag on the drawing', () => {
    const said = textsOf(plateSvg(samplePlate));
    const row = said.slice(said.indexOf('stud 4') - 1, said.indexOf('stud 4') + 5);
    expect(row).toEqual(['4', 'stud 4', '108.00', '-31.00', 'Ø 9', 'drill']);
    for (const tag of ['P1', 'P2', '1', '2', '3', '4', '5'])
      expect(said.filter((text) => text === tag)).toHaveLength(2);
  });

  test('the distance of ports in a row, and the pitch circle of tubes in a ring: 130, and twice 30', () => {
    expect(textsOf(plateSvg(samplePlate))).toContain('130');
    expect(textsOf(plateSvg(mergePlate)).join(' ')).toContain("tube holes' middles on a circle Ø 60");
    expect(plateSvg(crowded)).not.toContain('circle Ø');
  });

  test('two tubes above each other: how far apart they are, 3-4-5 times 12', () => {
    const tube = (name: string, at: readonly [number, number]) => ({
      name,
      loop: circleLoop(at, 20),
      exact: undefined,
    });
    const pair = { ...mergePlate, openings: [tube('tube S1', [0, 0]), tube('tube S2', [36, 48])], holes: [] };
    expect(textsOf(plateSvg(pair)).join(' ')).toContain('middles 60 mm apart');
  });

  test('the legend tells drilled from cut only where something is drilled', () => {
    const words = 'drilled by hand, not cut: the cut file has a point';
    expect(textsOf(plateSvg(mergePlate))).toContain(words);
    expect(textsOf(plateSvg({ ...samplePlate, holes: [], openings: [] }))).not.toContain(words);
  });

  test('the legend says what the tick by a port is for, only where one is etched', () => {
    const words = "short tick by a port: its tube's clock turns count from here";
    const tick = {
      name: 'clock zero P1',
      strokes: [
        [
          [0, 20],
          [0, 24],
        ],
      ],
    } as const;
    expect(textsOf(plateSvg({ ...samplePlate, marks: [...samplePlate.marks, tick] }))).toContain(words);
    expect(textsOf(plateSvg(samplePlate))).not.toContain(words);
  });

  test('signs that mean something to XML are written as words', () => {
    expect(plateSvg(mergePlate)).toContain('Merge plate &lt;4 into 1&gt; &amp; &quot;star&quot;');
  });

  test('the same part gives the same bytes', () => {
    expect(plateSvg(mergePlate)).toBe(plateSvg(structuredClone(mergePlate)));
  });
});

let folder: string;
let tools = false;
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'tackwright-svg-'));
  tools = ['rsvg-convert', 'convert'].every((tool) => spawnSync(tool, ['--version']).status === 0);
});
afterAll(() => rmSync(folder, { recursive: true }));

function rendered(svg: string, name: string, dpi: number): string {
  const [source, goal] = [path.join(folder, `${name}.svg`), path.join(folder, `${name}.png`)];
  writeFileSync(source, svg);
  const run = spawnSync('rsvg-convert', ['-d', String(dpi), '-p', String(dpi), source, '-o', goal], {
    encoding: 'utf8',
  });
  expect(run.stderr).toBe('');
  return goal;
}

/** A number that ImageMagick works out over one or two pictures. */
const pixels = (pictures: readonly string[], ...work: readonly string[]): number =>
  Number(spawnSync('convert', [...pictures, ...work, 'info:'], { encoding: 'utf8' }).stdout);

describe.each(plates.map((part) => ({ name: part.name, part })))(
  'words on the sheet of $name, rendered by rsvg',
  ({ part }) => {
    test('stand on no line', (context) => {
      context.skip(!tools, 'skipped: needs librsvg2-bin and imagemagick');
      const svg = plateSvg(part);
      const wordless = rendered(svg.replace(/<g id="words".*<\/g>/s, ''), 'lines', 150);
      const lineless = rendered(svg.replace(/<g id="lines">.*?<\/g>/s, ''), 'words', 150);
      // The lighter of both is dark only where both are.
      const darkest = pixels(
        [wordless, lineless],
        '-colorspace',
        'Gray',
        '-compose',
        'Lighten',
        '-composite',
        '-format',
        '%[fx:minima]',
      );
      expect(darkest).toBeGreaterThan(0.7);
    });

    test('stand on no other words', (context) => {
      context.skip(!tools, 'skipped: needs librsvg2-bin and imagemagick');
      const svg = plateSvg(part)
        .replace(/<g id="lines">.*?<\/g>/s, '')
        .replaceAll('<text ', '<text opacity="0.5" ');
      const darkest = pixels([rendered(svg, 'glass', 150)], '-colorspace', 'Gray', '-format', '%[fx:minima]');
      // Half-clear words are half dark; where two lie on each other it is a quarter.
      expect(darkest).toBeGreaterThan(0.45);
      expect(darkest).toBeLessThan(0.55);
    });
  },
);

test('no line of words is wider than reckoned, in the wide DejaVu Sans', (context) => {
  const font = '/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf';
  const measured = (text: string): number =>
    Number(
      spawnSync('convert', ['-font', font, '-pointsize', '100', `label:${text}`, '-format', '%w', 'info:'], {
        encoding: 'utf8',
      }).stdout,
    ) / 100;
  context.skip(!tools || !(measured('m') > 0.5), 'skipped: needs imagemagick and fonts-dejavu');
  for (const text of [
    'TUBE SIDE up on the table: the dross is then on the gasket face.',
    'WELDING MMM 1234567890',
    'illicit fillet, (tilt)',
    '38.12 x 33.3',
    'Drill Ø 9 at both ends, file',
    'flange_334x87x10-mm.dxf',
  ])
    expect([text, measured(text) <= widthOf(text, 1) + 0.05]).toEqual([text, true]);
});
