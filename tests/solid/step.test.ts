import { beforeAll, describe, expect, test } from 'vitest';
import { frameFacing } from '../../src/base/frames.js';
import { Refusal } from '../../src/base/problems.js';
import {
  openKernel,
  plateSolid,
  readStep,
  writeStep,
  type Kernel,
  type Solid,
} from '../../src/solid/index.js';
import { disc, flangePlate, plainPlate } from '../support/plates.js';

let kernel: Kernel;
let flange: Solid;
let blank: Solid;
beforeAll(async () => {
  kernel = await openKernel();
  flange = plateSolid(kernel, flangePlate());
  blank = plateSolid(kernel, plainPlate({ name: 'blank', outline: disc(30), thickness: 3 }));
});

const textOf = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

describe('header against ISO 10303-21', () => {
  // AP214 and the order of the header: as printed in the standard's examples; the AP242 string from memory.
  test.each([
    ['AP242', 'AP242_MANAGED_MODEL_BASED_3D_ENGINEERING_MIM_LF {1 0 10303 442 1 1 4 }'],
    ['AP214', 'AUTOMOTIVE_DESIGN'],
  ] as const)('%s', (schema, name) => {
    const text = textOf(writeStep(kernel, [{ solid: flange }], { schema, fileName: 'flange.step' }));
    const lines = text.split('\n');
    expect(lines[0]).toBe('ISO-10303-21;');
    expect(text.trimEnd().split('\n').at(-1)).toBe('END-ISO-10303-21;');
    const places = ['FILE_DESCRIPTION(', 'FILE_NAME(', 'FILE_SCHEMA('].map((word) => text.indexOf(word));
    expect(places.every((at, i) => at > (places[i - 1] ?? 0))).toBe(true);
    expect(text).toContain("'2;1')");
    expect(text).toContain('SI_UNIT(.MILLI.,.METRE.)');
    expect(/FILE_SCHEMA\(\(\s*'([^']*)'/.exec(text)?.[1]?.startsWith(name)).toBe(true);
  });

  test('file name as given, no time, author or organisation', () => {
    const text = textOf(writeStep(kernel, [{ solid: flange }], { fileName: "it's-a-flange.step" }));
    expect(text).toContain("FILE_NAME('it''s-a-flange.step','1970-01-01T00:00:00',(''),(''),'','','');");
    expect(text.match(/\d{4}-\d\d-\d\dT/g)).toEqual(['1970-01-01T']);
  });
});

test('the same solid twice gives the same bytes, also with another file written between', () => {
  const first = writeStep(kernel, [{ solid: flange, colour: '#0072b2' }]);
  writeStep(kernel, [{ solid: blank }], { schema: 'AP214', assembly: 'between' });
  const again = plateSolid(kernel, flangePlate());
  const second = writeStep(kernel, [{ solid: again, colour: '#0072b2' }]);
  again.dispose();
  expect(Buffer.compare(first, second)).toBe(0);
});

test('names, volumes and boxes come back; letters beyond ASCII spelt as the standard has them', () => {
  const bytes = writeStep(kernel, [{ solid: flange }, { solid: blank, name: "Bédard's blank" }]);
  const { schema, solids } = readStep(kernel, bytes);
  expect(schema).toMatch(/^AP242_/);
  expect(solids.map(({ name }) => name)).toEqual(['flange', "Bédard's blank"]);
  expect(textOf(bytes)).toContain("'B\\X2\\00E9\\X0\\dard''s blank'");
  expect(solids.map(({ valid }) => valid)).toEqual([true, true]);
  expect(solids[0]?.volume).toBeCloseTo(flange.volume, 6);
  expect(solids[1]?.volume).toBeCloseTo(Math.PI * 900 * 3, 6);
  expect(solids[1]?.bounds.low.map((v) => Math.round(v * 1e6) / 1e6)).toEqual([-30, -30, 0]);
  expect(solids[1]?.bounds.high.map((v) => Math.round(v * 1e6) / 1e6)).toEqual([30, 30, 3]);
});

test('colour as a screen shows it: #0072b2 is written 0, 0.447, 0.698', () => {
  const text = textOf(writeStep(kernel, [{ solid: blank, colour: '#0072b2' }]));
  const shares = /COLOUR_RGB\('',([\d.E-]+),([\d.E-]+),([\d.E-]+)\)/.exec(text)?.slice(1).map(Number);
  expect(shares?.[0]).toBeCloseTo(0, 5);
  expect(shares?.[1]).toBeCloseTo(0x72 / 255, 5);
  expect(shares?.[2]).toBeCloseTo(0xb2 / 255, 5);
});

test('an assembly keeps its tree, and its parts stand where they were put', () => {
  const at = frameFacing([100, 20, 5], [1, 0, 0], [0, 1, 0]);
  const bytes = writeStep(kernel, [{ solid: blank }, { solid: blank, name: 'second', at }], {
    assembly: 'header',
  });
  const text = textOf(bytes);
  expect(text.match(/NEXT_ASSEMBLY_USAGE_OCCURRENCE\(/g)).toHaveLength(2);
  expect(text).toMatch(/PRODUCT\('header','header'/);
  const { solids } = readStep(kernel, bytes);
  expect(solids.map(({ name }) => name)).toEqual(['blank', 'second']);
  const second = solids[1]?.bounds;
  // A 3 mm disc of radius 30 whose axis points right, standing at right 100, up 20, out 5.
  [100, -10, -25].forEach((low, axis) => expect(second?.low[axis]).toBeCloseTo(low, 6));
  [103, 50, 35].forEach((high, axis) => expect(second?.high[axis]).toBeCloseTo(high, 6));
  expect(solids[1]?.holes).toEqual([]);
});

describe('a file that holds no solid is refused', () => {
  const codesOf = (bytes: Uint8Array): string[] => {
    try {
      readStep(kernel, bytes, 'block.step');
    } catch (error) {
      if (error instanceof Refusal) return error.problems.map(({ code, place }) => `${code} ${place?.file}`);
      throw error;
    }
    return [];
  };
  test.each([
    ['empty', () => new Uint8Array()],
    ['not STEP', () => new TextEncoder().encode('solid block\nfacet normal 0 0 1\n')],
    ['cut short', () => writeStep(kernel, [{ solid: flange }]).slice(0, 9000)],
  ])('%s', (_, bytes) => {
    expect(codesOf(bytes())).toEqual(['solid/step-read block.step']);
  });
});

test('a solid that was disposed of cannot be written', () => {
  const gone = plateSolid(kernel, plainPlate({ name: 'gone' }));
  gone.dispose();
  gone.dispose();
  expect(() => writeStep(kernel, [{ solid: gone }])).toThrow(/gone/);
});
