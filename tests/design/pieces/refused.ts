import type { Code } from '../../../src/base/codes/index.js';
import type { Solve } from '../../../src/design/pieces/linear-program.js';
import { planPieces, type PlanOptions } from '../../../src/design/pieces/plan-pieces.js';
import { linesByHand } from '../../../src/design/routes-by-hand.js';
import { readJob, readRack } from '../../../src/job/index.js';

/** A job of one primary, square to the face, slip joint 45 deep; its rows go into the place left for them. */
export const job = (rows: string, collector = 'slip'): string => `job: refused
ports: { each: [{ at: [0, 0, 0], direction: [0, 0, 1] }] }
tube: { od: 42.4, wall: 1.6, material: "304" }
collector: { joint: ${collector}, at: [0, -300, 200], flow: [0, -1, 0] }
primaries:
  by_hand:
    P1:
${rows
  .split(' / ')
  .map((row) => `      - { ${row.includes('straight') ? row : `clr: ${row}`} }`)
  .join('\n')}
`;

/** The same, leaving a flange downward at a lean of some degrees, so that its first cut is oblique. */
export const leaning = (rows: string, lean: number): string =>
  job(rows, 'welded')
    .replace(
      'each: [{ at: [0, 0, 0], direction: [0, 0, 1] }]',
      `shape: { circle: { diameter: 36 } }, row: { count: 1 }, leaving: { down: ${lean} }`,
    )
    .concat(
      'studs: { thread: M8, at: [[-33, 0], [33, 0]] }\n',
      'flange: { thickness: 10, cut_by: plasma, material: "304", edge: 10, boss: 13.5, web: { height: 30 }, fillet: 8, least_web: 8 }\n',
    );

export const rack = (bends: string, straights = '{ length: 1000, price: 18 }'): string => `
tube: { od: 42.4, wall: 1.6, material: "304" }
saw: { kerf: 2, dress: 0.5, raw_trim: 3 }
bends: [${bends}]
straights: [${straights}]
`;
export const half = '{ clr: 63.6, angle: 180, legs: [100, 100], price: 17 }';
export const elbow = '{ clr: 63.6, angle: 90, legs: [0, 0], price: 8 }';
export const sound = 'straight: 50 / 63.6, angle: 90, clock: 180 / straight: 200';

/** The pieces of a job from a rack, and the line of a key of the job. */
export function plan(jobText: string, rackText: string, options: PlanOptions = {}) {
  const read = readJob(jobText, { file: 'job.yaml' });
  const stock = readRack(rackText).value;
  if (!read.value || !stock) throw new Error(JSON.stringify(read.problems));
  const { value } = read;
  const routes = [...linesByHand(value)].map(([id, line]) => ({
    id,
    line,
    rows: value.primaries?.byHand[id] ?? [],
  }));
  const made = planPieces(value, routes, stock, options);
  return { ...made, lineOf: (path: string) => read.locate(path)?.line };
}

/** What is told of jobs that cannot be sawn: code, job, rack, row, words, and how it is planned. */
export const refused: readonly (readonly [Code, string, string, number, RegExp, PlanOptions])[] = [
  [
    'pieces/clr-not-on-rack',
    job(sound.replace('63.6', '76.2')),
    rack(half),
    1,
    /76\.2 mm; the rack has 63\.6/,
    {},
  ],
  [
    'pieces/angle-over-stock',
    job(sound.replace('angle: 90', 'angle: 120')),
    rack(elbow),
    1,
    /120 deg.*90 deg/,
    { choices: { splitInArc: false } },
  ],
  // 35 deg from stock of 30: two parts of 17.5 deg have 21.2 x 0.305 = 6.5 mm at their inside.
  [
    'pieces/angle-over-stock',
    job(sound.replace('63.6, angle: 90', '42.4, angle: 35')),
    rack('{ clr: 42.4, angle: 30, legs: [100, 100], price: 8 }'),
    1,
    /35 deg.*30 deg.*12 mm at its inside/,
    {},
  ],
  ['pieces/half-turn', job(sound.replace('angle: 90', 'angle: 180')), rack(half), 1, /180 deg/, {}],
  // 8 deg at CLR 63.6 has (63.6 - 21.2) x 8 deg = 5.9 mm at its inside, and no straight beside it.
  [
    'pieces/arc-too-short',
    job(
      'straight: 50 / 63.6, angle: 40, clock: 180 / straight: 0 / 63.6, angle: 8, clock: 90 / straight: 0 / 63.6, angle: 40, clock: 90 / straight: 90',
    ),
    rack(half),
    3,
    /8 deg: it has 5\.9 mm.*12 mm/,
    {},
  ],
  // 27 deg at CLR 42.4 has 21.2 x 0.471 = 10 mm at its inside, long straights beside it, and a stock without legs.
  [
    'pieces/arc-too-short',
    job(sound.replace('63.6, angle: 90', '42.4, angle: 27')),
    rack('{ clr: 42.4, angle: 90, legs: [0, 0], price: 8 }'),
    1,
    /27 deg: it has 10 mm.*12 mm/,
    {},
  ],
  [
    'pieces/sliver',
    job(
      'straight: 50 / 63.6, angle: 90, clock: 180 / straight: 12 / 63.6, angle: 90, clock: 90 / straight: 90',
    ),
    rack(elbow),
    2,
    /12 mm.*20 mm/,
    {},
  ],
  // 21.2 x tan 12 deg = 4.506: so far the cut reaches along the short side.
  [
    'pieces/cut-into-bend',
    leaning(sound.replace('straight: 50', 'straight: 4'), 12),
    rack(half),
    0,
    /4 mm; its oblique cut at the flange reaches 4\.5 mm/,
    {},
  ],
  // 24.4 on the axis are 19.9 on the short side.
  [
    'pieces/sliver',
    leaning(sound.replace('straight: 50', 'straight: 24.4'), 12),
    rack(elbow),
    0,
    /24\.4 mm.*the flange \(20 mm on its short side\) is 24\.5 mm/,
    {},
  ],
  [
    'pieces/too-long',
    job(sound),
    rack(half, '{ length: 150, price: 4 }').replace('150', '25'),
    2,
    /200 mm.*19 mm/,
    {},
  ],
  [
    'pieces/slip-too-short',
    job(sound.replace('straight: 200', 'straight: 30')),
    rack(half),
    2,
    /30 mm.*45 mm deep/,
    {},
  ],
  [
    'pieces/stock-used-up',
    job(
      'straight: 50 / 63.6, angle: 120, clock: 180 / straight: 80 / 63.6, angle: 120, clock: 90 / straight: 90',
    ),
    rack(half.replace('price: 17', 'price: 17, quantity: 1')),
    1,
    /nothing left for a bend of CLR 63\.6 for 120 deg/,
    {},
  ],
];

/** A plan whose search is cut short. */
export function planCutShort(solve: Solve): ReturnType<typeof plan> {
  const rows = Array.from(
    { length: 3 },
    (_, i) => `63.6, angle: ${50 + 7 * i}, clock: ${100 + 10 * i} / straight: ${60 + 5 * i}`,
  );
  const effort = { cuts: 30_000, cutsAtOnce: 1200, nodes: 0, seconds: 10 };
  return plan(
    job(`straight: 40 / ${rows.join(' / ')}`),
    rack(`${half}, ${half.replace('180', '120').replace('17', '12')}`),
    { solve, effort },
  );
}

/** A job with keep-outs over all that its legs reach. */
export function coveredLegs() {
  const read = readJob(
    job(
      'straight: 97 / 63.6, angle: 90, clock: 180 / straight: 90 / 63.6, angle: 60, clock: 90 / straight: 90',
    ),
  );
  const stock = readRack(rack(elbow.replace('[0, 0]', '[60, 60]'))).value;
  if (!read.value || !stock) throw new Error('did not read');
  const { value } = read;
  // The straight between lies from 97 + 99.9 = 196.9 to 286.9 along the tube.
  const routes = [...linesByHand(value)].map(([id, line]) => {
    return { id, line, rows: value.primaries?.byHand[id] ?? [], noWeld: [[190, 290] as const] };
  });
  return { value, stock, routes };
}
