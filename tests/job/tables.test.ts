import { describe, expect, it } from 'vitest';
import { cuttingRules, hopelessHole, leastCutHole } from '../../src/job/tables/cutting.js';
import { tubeGauges } from '../../src/job/tables/gauges.js';
import { materialOf } from '../../src/job/tables/materials.js';
import { neighbours } from '../../src/job/tables/neighbours.js';
import { threadNames, threadOf } from '../../src/job/tables/threads.js';

const growth = (material: string, temperature: number): number => {
  const found = materialOf(material);
  if (!found) throw new Error(`no ${material}`);
  return found.growth(temperature);
};

describe('tube walls by Birmingham wire gauge (BWG tables of two reference pages that agree; ASTM A554 lists)', () => {
  it.each([
    [10, 0.134, 3.4036],
    [11, 0.12, 3.048],
    [12, 0.109, 2.7686],
    [13, 0.095, 2.413],
    [14, 0.083, 2.1082],
    [15, 0.072, 1.8288],
    [16, 0.065, 1.651],
    [17, 0.058, 1.4732],
    [18, 0.049, 1.2446],
    [19, 0.042, 1.0668],
    [20, 0.035, 0.889],
  ])('%i gauge: %f in, %f mm', (gauge, inch, mm) => {
    expect(tubeGauges[gauge]).toBeCloseTo(mm, 6);
    expect((tubeGauges[gauge] ?? 0) / 25.4).toBeCloseTo(inch, 9);
  });

  it('16 gauge is not the sheet gauge of steel (0.0598 in) nor of stainless (0.0625 in), both from memory', () => {
    expect(Math.abs((tubeGauges[16] ?? 0) / 25.4 - 0.0598)).toBeGreaterThan(0.004);
    expect(Math.abs((tubeGauges[16] ?? 0) / 25.4 - 0.0625)).toBeGreaterThan(0.002);
  });
});

describe('clearance holes', () => {
  // ISO 273, two reference pages that agree; M5 from memory.
  it.each([
    ['M5', 5.3, 5.5, 5.8],
    ['M6', 6.4, 6.6, 7],
    ['M8', 8.4, 9, 10],
    ['M10', 10.5, 11, 12],
    ['M12', 13, 13.5, 14.5],
  ])('%s: fine %f, medium %f, coarse %f (ISO 273)', (thread, fine, medium, coarse) => {
    expect(threadOf(thread)?.holes).toEqual({ fine, medium, coarse });
  });

  // Drills of ASME B18.2.8; 1/4 to 3/8 as in Machinery's Handbook 31, p. 1741; 7/16 from memory.
  it.each([
    ['1/4', 17, 18, 19],
    ['5/16', 21, 22, 23],
    ['3/8', 25, 26, 27],
    ['7/16', 29, 30, 31],
  ])('%s in: drills %i/64, %i/64, %i/64 (ASME B18.2.8)', (thread, close, normal, loose) => {
    const holes = threadOf(thread)?.holes;
    expect(holes?.fine).toBeCloseTo((close / 64) * 25.4, 9);
    expect(holes?.medium).toBeCloseTo((normal / 64) * 25.4, 9);
    expect(holes?.coarse).toBeCloseTo((loose / 64) * 25.4, 9);
  });

  // Machinery's Handbook 31, p. 1741: largest and smallest loose hole, in.
  it.each([
    ['5/16', 0.359, 0.373],
    ['3/8', 0.422, 0.438],
  ])('the loose drill of %s in lies in the handbook\u2019s band %f to %f in', (thread, least, most) => {
    const loose = (threadOf(thread)?.holes.coarse ?? 0) / 25.4;
    expect(loose).toBeGreaterThan(least - 0.0005);
    expect(loose).toBeLessThan(most);
  });

  it('every hole goes over its thread, and is wider the coarser the fit', () => {
    for (const name of threadNames) {
      const thread = threadOf(name);
      if (!thread) throw new Error(name);
      const { fine, medium, coarse } = thread.holes;
      expect(fine).toBeGreaterThan(thread.diameter);
      expect(medium).toBeGreaterThan(fine);
      expect(coarse).toBeGreaterThan(medium);
    }
  });
});

describe('nuts and the room for a socket', () => {
  // ISO 4032: flats and height read in an open fastener data set; least across corners from memory.
  it.each([
    ['M6', 10, 11.05, 5.2],
    ['M8', 13, 14.38, 6.8],
    ['M10', 16, 17.77, 8.4],
    ['M12', 18, 20.03, 10.8],
  ])('%s: flats %f, corners %f, height %f', (name, flats, corners, height) => {
    const thread = threadOf(name);
    expect([thread?.acrossFlats, thread?.acrossCorners, thread?.nutHeight]).toEqual([flats, corners, height]);
  });

  it('across the corners of a hexagon is at least flats x 1.126 (ISO 4032 allows 1.13 s less its tolerance)', () => {
    for (const name of threadNames) {
      const thread = threadOf(name);
      const ratio = (thread?.acrossCorners ?? 0) / (thread?.acrossFlats ?? 1);
      expect(ratio).toBeGreaterThan(1.09);
      expect(ratio).toBeLessThan(2 / Math.sqrt(3) + 1e-6);
    }
  });

  // Column G of a table of head clearances (its sketch unseen): 17, 22, 27, 30; and 3 mm.
  it.each([
    ['M6', 20],
    ['M8', 25],
    ['M10', 30],
    ['M12', 33],
  ])('a socket for %s needs %f mm', (name, socket) => expect(threadOf(name)?.socket).toBe(socket));

  it('a thread is found however it is written', () => {
    for (const text of ['M8', 'm8', ' M8 ', 'M8x1.25', 'M8 x 1.25']) expect(threadOf(text)?.name).toBe('M8');
    for (const text of ['5/16', '5/16"', '5/16 in', '5/16-18', '5/16-18 UNC', '5/16 UNF'])
      expect(threadOf(text)?.name).toBe('5/16');
    for (const text of ['M9', '8', '', '5/17', 'M8 bolt']) expect(threadOf(text)).toBeUndefined();
  });
});

describe('what a way of cutting can do', () => {
  it.each([
    [3, 4.5],
    [6, 9],
    [8, 12],
    [10, 15],
  ])(
    'plasma, %f mm plate: least hole %f mm (a plasma design guideline: 1.5 x thickness)',
    (thickness, hole) => {
      expect(leastCutHole('plasma', thickness)).toBe(hole);
      expect(hopelessHole('plasma', thickness)).toBe(thickness);
    },
  );

  it('so an M8 hole of 9 mm is drilled in an 8 or 10 mm flange, and cut in a 6 mm one', () => {
    expect(leastCutHole('plasma', 10)).toBeGreaterThan(9);
    expect(leastCutHole('plasma', 8)).toBeGreaterThan(9);
    expect(leastCutHole('plasma', 6)).toBe(9);
  });

  it('laser: the thickness, not under 1 mm (a laser shop\u2019s guideline)', () => {
    expect(leastCutHole('laser', 10)).toBe(10);
    expect(leastCutHole('laser', 0.5)).toBe(1);
  });

  it('a saw and a drill cut no holes: all are drilled', () => {
    expect(leastCutHole('saw and drill', 10)).toBe(Infinity);
  });

  it('kerfs: laser 0.1-0.3, waterjet 0.8-1.2, plasma 1.5-3 mm (a comparison of processes)', () => {
    expect(cuttingRules.laser.kerf).toEqual([0.1, 0.3]);
    expect(cuttingRules.waterjet.kerf).toEqual([0.8, 1.2]);
    expect(cuttingRules.plasma.kerf).toEqual([1.5, 3]);
  });
});

describe('materials', () => {
  it.each([
    ['304', 7900],
    ['1.4301', 7900],
    ['1.4307', 7900],
    ['321', 7900],
    ['409', 7700],
    ['mild steel', 7850],
    ['S235JR', 7850],
  ])('%s: %f kg/m3 (EN 10088-1, EN 1993-1-1)', (name, density) =>
    expect(materialOf(name)?.density).toBe(density),
  );

  it('mass of a 42.4 x 2.0 tube per metre: 2.0053 kg in 304, 1.9546 in 409, 1.9926 in mild steel', () => {
    const area = (Math.PI / 4) * (42.4 ** 2 - 38.4 ** 2) * 1e-6;
    expect(area * (materialOf('304')?.density ?? 0)).toBeCloseTo(2.0053, 4);
    expect(area * (materialOf('409')?.density ?? 0)).toBeCloseTo(1.9546, 4);
    expect(area * (materialOf('mild steel')?.density ?? 0)).toBeCloseTo(1.9926, 4);
  });

  // EN 10088-1, mean coefficients from 20 C (304 beyond 100 C from memory); a supplier's sheet for 409.
  it.each([
    ['304', [16, 16.5, 17, 17.5, 18]],
    ['321', [16, 16.5, 17, 17.5, 18]],
    ['409', [10.5, 11, 11.5, 12, 12]],
  ] as const)('%s: mean expansion to 100 .. 500 C', (name, means) => {
    means.forEach((mean, i) => {
      const t = (i + 1) * 100;
      expect(growth(name, t) / (t - 20)).toBeCloseTo(mean * 1e-6, 12);
    });
  });

  it('growth of 500 mm from 20 to 500 C: 4.32 (304), 2.88 (409), 3.3792 mm (mild steel, EN 1993-1-2)', () => {
    expect(500 * growth('304', 500)).toBeCloseTo(4.32, 6);
    expect(500 * growth('409', 500)).toBeCloseTo(2.88, 6);
    expect(500 * growth('mild steel', 500)).toBeCloseTo(3.3792, 6);
  });

  // EN 1993-1-2, its formula worked at four temperatures; zero at 20 C by construction.
  it.each([
    [20, 0],
    [100, 0.0009984],
    [300, 0.0037184],
    [500, 0.0067584],
    [700, 0.0101184],
  ])('carbon steel at %f C has grown by %f', (t, grown) =>
    expect(growth('mild steel', t)).toBeCloseTo(grown, 9),
  );

  it('between the temperatures of the table the mean runs straight', () => {
    expect(growth('304', 450) / 430).toBeCloseTo(17.75e-6, 12);
    expect(growth('304', 20)).toBe(0);
    expect(growth('304', 700) / 680).toBeCloseTo(18e-6, 12);
  });

  it('unknown names are unknown', () => {
    expect(materialOf('unobtainium')).toBeUndefined();
    expect(materialOf('constructor')).toBeUndefined();
  });
});

it('a shield never asks for more room than a bare tube (common practice, no source)', () => {
  for (const { bare, shielded } of Object.values(neighbours)) expect(shielded).toBeLessThanOrEqual(bare);
  expect(neighbours['fuel line'].bare).toBe(100);
  expect(neighbours.steering.bare).toBe(15);
});
