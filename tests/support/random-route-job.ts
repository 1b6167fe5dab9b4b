import { stringify } from 'yaml';
import { mixSeed, randomFrom, type Random } from '../../src/base/random.js';
import type { JudgedRecord } from './judge.js';
import { march, toBody, type Body, type V } from './plain-march.js';
import { plainRouteJob } from './plain-route-job.js';
import { headerByTrial } from './route-by-trial.js';

/** A random job to be routed, with its rack. Everything in it is invented. */
export interface RandomRouteJob {
  readonly text: string;
  readonly rackText: string;
  /** A header that answers it, found before the clutter was put round it; absent where clutter fell blindly. */
  readonly planted: JudgedRecord | undefined;
}

type Data = Record<string, unknown>;
const tenth = (x: number): number => Math.round(x * 10) / 10;
const place = (...v: readonly number[]): number[] => v.map(tenth);

/**
 * The random job of a seed: 2 to 5 ports in a row or by themselves, leaning; a collector slip or welded, clocked
 * or free; slots any, in firing order or by list; a target or a window; head, block and clutter of every form.
 * Jobs of even seeds hold a planted header, so they have an answer; those of odd seeds may have none.
 */
export function randomRouteJob(seed: number): RandomRouteJob {
  for (let attempt = 0; ; attempt++) {
    const random = randomFrom(mixSeed(9173, seed, attempt));
    const rackText = randomRack(random);
    const job = randomLayout(random, seed);
    if (seed % 2 !== 0) {
      const text = stringify({
        ...job,
        keep_outs: [...(job['keep_outs'] as Data[]), ...blindClutter(job, random)],
      });
      return { text, rackText, planted: undefined };
    }
    const rules = { seed: mixSeed(seed, attempt), tries: 240, keep: 14, lengths: 1 };
    const header = headerByTrial(stringify(job), rackText, rules);
    if (header === undefined) continue;
    const clutter = clutterRound(job, header.record, random);
    const text = stringify({ ...job, keep_outs: [...(job['keep_outs'] as Data[]), ...clutter] });
    return { text, rackText, planted: header.record };
  }
}

const OD = 42.4;

function randomRack(random: Random): string {
  const legs = random.pick([
    [100, 100],
    [100, 60],
    [75, 75],
    [30, 30],
  ]);
  const clrs = random.pick([[42.4, 63.6, 84.8], [63.6], [50.8, 76.2]]);
  return stringify({
    units: 'mm',
    tube: { od: OD, wall: 1.6, material: '304' },
    saw: { kerf: 2, dress: 0.5, raw_trim: 0 },
    bends: clrs.map((clr) => ({ clr, angle: 180, legs, price: tenth(clr / 4), quantity: 'unlimited' })),
    straights: [{ length: 1000, price: 18, quantity: 'unlimited' }],
  });
}

/** The job without its clutter. */
function randomLayout(random: Random, seed: number): Data {
  const count = random.pick([2, 2, 3, 3, 4, 4, 4, 5]);
  const pitch = tenth(random.between(82, 115));
  const wide = pitch * (count - 1);
  const inRow = random.chance(0.5);
  const down = tenth(random.between(0, 30));
  const each = Array.from({ length: count }, (_, i) => {
    const at = place(i * pitch + random.between(-6, 6), random.between(-8, 8), 0);
    return random.chance(0.5)
      ? { at, leaving: { down: tenth(random.between(0, 32)), right: tenth(random.between(-15, 15)) } }
      : { at, direction: place(random.between(-0.3, 0.3), random.between(-0.7, 0.1), 1) };
  });
  const flanged = inRow && random.chance(0.6);
  const slip = random.chance(0.5);
  const depth = random.pick([35, 45]);
  const at = place(random.between(-120, wide + 120), random.between(-470, -280), random.between(90, 260));
  const flow = random.chance(0.3)
    ? { down: tenth(random.between(40, 85)), heading: tenth(random.between(-90, 90)) }
    : random.chance(0.7)
      ? place(random.between(-0.4, 0.4), -1, random.between(-0.3, 0.5))
      : place(random.pick([-1, 1]), random.between(-0.5, 0), random.between(-0.3, 0.3));
  const slots = random.pick(['shortest', 'shortest', 'shortest', 'firing', 'list']);
  const shuffled = Array.from({ length: count }, (_, i) => i + 1).sort(() => random.next() - 0.5);
  const furthest = Math.max(
    ...Array.from({ length: count }, (_, i) =>
      Math.hypot((at[0] as number) - i * pitch, at[1] as number, at[2] as number),
    ),
  );
  const length = tenth(furthest * random.between(1.12, 1.5) + random.between(20, 120));
  const clocked = slots === 'list' || random.chance(0.75);
  const head = tenth(random.between(0, 12));
  const ids = Array.from({ length: count }, (_, i) => `P${i + 1}`);
  const boss = random.chance(0.3) && !flanged;
  return {
    job: `random-${seed}`,
    units: 'mm',
    engine: { cylinders: count, firing_order: shuffled },
    ports: inRow
      ? {
          shape: { circle: { diameter: 36 } },
          row: { count, pitch },
          leaving: { down, right: tenth(random.between(-10, 10)) },
        }
      : { each },
    ...(flanged
      ? {
          studs: {
            thread: random.pick(['M6', 'M8', 'M10']),
            beside_each_port: [
              [-33, 24],
              [33, -24],
            ],
          },
          flange: { thickness: random.pick([8, 10, 12.7]) },
        }
      : {}),
    tube: { od: OD, wall: 1.6, material: '304' },
    primaries: {
      stub: random.pick([20, 25, 30]),
      between: random.pick([0, 5, 12]),
      ...(random.chance(0.5)
        ? { last_straight: slip ? depth + random.pick([15, 20]) : random.pick([25, 45]) }
        : {}),
      least_angle: random.pick([3, 5]),
      largest_angle: random.pick([120, 150]),
    },
    collector: {
      joint: slip ? 'slip' : 'welded',
      at: { right: at[0], up: at[1], out: at[2] },
      flow,
      half_angle: tenth(random.between(3, 10)),
      ...(clocked ? { clocking: random.whole(0, 359) } : {}),
      ...(random.chance(0.5) ? { slot_gap: tenth(random.between(slip ? 4.7 : 2, 9)) } : {}),
      ...(slip ? { slip: { depth, gap: 0.4 } } : {}),
      body: {
        length: 160,
        ...(random.chance(0.5) ? { diameter: tenth(random.between(90, 150)) } : {}),
        clear: 4,
      },
      ...(random.chance(0.15) ? { may_move: { along: 25, across: 10, tilt: 3 } } : {}),
      slots: slots === 'list' ? [...shuffled].reverse().map((n) => `S${n}`) : slots,
    },
    length: random.chance(0.5)
      ? { target: length, spread: 0.1 }
      : { between: place(length - random.between(0, 60), length + random.between(20, 120)), spread: 0.1 },
    rack: 'rack.yaml',
    keep_outs: [
      {
        name: 'cylinder head',
        clear: 8,
        head_of: ids,
        box: { from: place(-70, -90, -260), to: place(wide + 70, 120, -head) },
      },
      ...(boss
        ? [
            {
              name: 'boss on the head',
              clear: 3,
              head_of: ['P1'],
              box: { from: place(-30, 26, -20), to: place(30, 50, random.between(2, 14)) },
            },
          ]
        : []),
      {
        name: 'block',
        clear: random.pick([8, 10]),
        box: { from: place(-70, -430, -280), to: place(wide + 70, -90, -random.between(5, 40)) },
      },
    ],
    clear: { tube_to_tube: random.pick([4, 6, 8]), near_slots: random.chance(0.3) ? 1.5 : 4 - 0.1 },
  };
}

/** One body of clutter, somewhere between the ports and beyond the collector. */
function randomBody(job: Data, random: Random): Data & { body: Body; clear: number } {
  const { collector, starts } = plainRouteJob(stringify(job));
  const wide = starts.at(-1)?.at[0] ?? 0;
  const [x, y, z] = collector.at;
  const spot = (): number[] =>
    place(
      random.between(Math.min(x, 0) - 120, Math.max(x, wide) + 120),
      random.between(y - 60, 60),
      random.between(-20, z + 160),
    );
  const clear = random.pick([4, 6, 8, 10, 12]);
  const kind = random.pick(['box', 'box', 'cylinder', 'capsule', 'capsule', 'plane']);
  const from = spot();
  const size = (): number => random.between(20, 110);
  if (kind === 'box') {
    const box = { from, to: place(...from.map((v) => v + size())) } as unknown as NonNullable<Body['box']>;
    return { body: { box }, clear, box };
  }
  if (kind === 'plane') {
    const normal: V = random.pick([
      [0, 1, 0],
      [0, 0.1, -1],
      [1, 0.2, 0],
      [-1, 0, 0],
    ]);
    const [low, high] = [
      Math.min(x, 0) - random.between(90, 300),
      Math.max(x, wide) + random.between(90, 300),
    ];
    const at = place(normal[0] > 0 ? low : high, y - random.between(60, 240), z + random.between(80, 320));
    const plane = { at: at as unknown as V, normal };
    return { body: { plane }, clear, plane };
  }
  const round = {
    from: from as unknown as V,
    to: (random.chance(0.5)
      ? spot()
      : place(...from.map((v) => v + random.between(-140, 141)))) as unknown as V,
    diameter: tenth(random.between(16, 70)),
  };
  return kind === 'cylinder'
    ? { body: { cylinder: round }, clear, cylinder: round }
    : { body: { capsule: round }, clear, capsule: round };
}

const TRIES = 60;

/** Clutter that leaves a header be, most of it near. */
function clutterRound(job: Data, { primaries }: JudgedRecord, random: Random): Data[] {
  const { starts, od } = plainRouteJob(stringify(job));
  const points = primaries.flatMap(({ rows }, i) => {
    const start = starts[i];
    if (start === undefined) throw new Error('a primary without its port');
    return march(start.at, start.flow, start.reference, rows, 3).stations.map(({ p }) => p);
  });
  const wanted = random.whole(3, 8);
  const found: Data[] = [];
  for (let t = 0; t < TRIES && found.length < wanted; t++) {
    const { body, clear, ...written } = randomBody(job, random);
    const spare = Math.min(...points.map((p) => toBody(body, p))) - od / 2 - clear;
    if (spare > 0.5) found.push({ name: `clutter ${found.length + 1}`, clear, ...written });
  }
  return found;
}

/** Clutter that falls where it will, but for the room just before the ports and the slots. */
function blindClutter(job: Data, random: Random): Data[] {
  const { starts, od, collector } = plainRouteJob(stringify(job));
  const free = random.chance(0.85) ? 60 : 0;
  const wanted = random.whole(2, 6);
  const found: Data[] = [];
  for (let t = 0; t < TRIES && found.length < wanted; t++) {
    const { body, clear, ...written } = randomBody(job, random);
    const mouth = toBody(body, collector.at) - 1.5 * free;
    const spare = Math.min(mouth, ...starts.map(({ at }) => toBody(body, at) - free)) - od / 2 - clear;
    if (free === 0 || spare > 0) found.push({ name: `clutter ${found.length + 1}`, clear, ...written });
  }
  return found;
}
