import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { rackFits, readJob, readRack } from '../../src/job/index.js';
import {
  cross,
  dot,
  far,
  least,
  march,
  plus,
  size,
  squared,
  toBody,
  unit,
  type Body,
  type Marched,
  type Row,
  type V,
} from '../support/plain-march.js';

const folder = new URL('../../fixtures/', import.meta.url);
const names = readdirSync(folder, { withFileTypes: true }).flatMap((one) =>
  one.isDirectory() ? [one.name] : [],
);
const textOf = (name: string, file = 'job.yaml'): string =>
  readFileSync(new URL(`${name}/${file}`, folder), 'utf8');

describe('the jobs shipped in fixtures/', () => {
  it('are the demo and five others', () => {
    expect(names.sort()).toEqual([
      'by-hand-four',
      'd-port-six',
      'hillclimb-four',
      'inch-four',
      'three-cylinder',
      'v-twin',
    ]);
  });

  it.each(names)('%s reads without errors or warnings', (name) => {
    const { value, problems } = readJob(textOf(name), { file: `fixtures/${name}/job.yaml` });
    expect(problems.filter(({ severity }) => severity !== 'note')).toEqual([]);
    expect(value?.name).toBe(name);
  });

  it.each(names)(
    '%s names the schema in its first line, so that editors help, and ships its rack',
    (name) => {
      const [first, ...comment] = textOf(name).split('\n');
      expect(first).toBe('# yaml-language-server: $schema=../../dist/job.schema.json');
      expect(comment.slice(0, 2).filter((line) => line.startsWith('# '))).toHaveLength(2);
      const rack = (parse(textOf(name)) as { rack?: string }).rack;
      expect(rack === undefined || existsSync(new URL(`${name}/${rack}`, folder))).toBe(true);
    },
  );

  it("the demo's rack reads, and fits its tube", () => {
    const job = readJob(textOf('hillclimb-four')).value;
    const rack = readRack(textOf('hillclimb-four', 'rack.yaml'));
    expect(rack.problems.filter(({ severity }) => severity !== 'note')).toEqual([]);
    expect(rack.value?.bends.map(({ clr }) => clr)).toEqual([42.4, 63.6, 84.8]);
    expect(job && rack.value ? rackFits(job, rack.value) : 'not read').toEqual([]);
  });

  it('inch-four holds inches: pitch 3-3/4 in is 95.25 mm, 16 ga is 1.651 mm (BWG 0.065 in)', () => {
    const job = readJob(textOf('inch-four')).value;
    expect(job?.ports[3]?.at[0]).toBeCloseTo(3 * 95.25, 9);
    expect(job?.tube?.wall).toBeCloseTo(0.065 * 25.4, 9);
    expect(job?.studs?.hole).toBeCloseTo((13 / 32) * 25.4, 9);
  });
});

describe('the second way of marching, by hand', () => {
  // Two quarter circles: out then left (clock 90 from up), then down. Ends worked on paper.
  it('two quarter bends of CLR 63.6 end at (-227.2, -113.6, 113.6), 190 + 63.6 pi long', () => {
    const rows: Row[] = [
      { straight: 40 },
      { clr: 63.6, angle: 90, clock: 90 },
      { straight: 100 },
      { clr: 63.6, angle: 90, clock: 90 },
      { straight: 50 },
    ];
    const found = march([0, 0, 10], [0, 0, 1], [0, 1, 0], rows, 1);
    expect(far(found.end.at, [-227.2, -113.6, 113.6])).toBeLessThan(1e-9);
    expect(far(found.end.flow, [0, -1, 0])).toBeLessThan(1e-12);
    expect(found.length).toBeCloseTo(190 + 63.6 * Math.PI, 9);
  });
});

/** The demo as its file has it; read as plain YAML, so that the job's own reader is not what is trusted. */
interface Demo {
  ports: { row: { count: number; pitch: number }; leaving: { down: number } };
  studs: { beside_each_port: [number, number][] };
  flange: { thickness: number };
  tube: { od: number; wall: number };
  engine: { firing_order: number[] };
  collector: {
    at: V;
    flow: V;
    clocking: number;
    slot_gap: number;
    slip: { depth: number; gap: number };
    body: { length: { value: number }; diameter: number; clear: number };
    slots: string[];
  };
  merge_plate: { upstream: number };
  rack: string;
  length: { target?: number; between?: [number, number]; spread: number };
  primaries: { stub: number; between: number; last_straight: number; by_hand?: Record<string, Row[]> };
  keep_outs: (Body & { name: string; kind?: string; clear?: number; head_of?: string[] })[];
  clear: { tube_to_tube: number; near_slots: number };
  tack_fixture: {
    base: { at: V; normal: V };
    cradle: { width: number; at: 'auto' | { primary: string; station: number }[] };
  };
}

/** The demo's routes as frozen beside it; those by hand as the other job gives them. */
const routed: readonly (readonly [string, Readonly<Record<string, Row[]>>])[] = [
  ['by-hand-four', (parse(textOf('by-hand-four')) as Demo).primaries.by_hand ?? {}],
  [
    'hillclimb-four',
    Object.fromEntries(
      (
        parse(textOf('hillclimb-four', 'routes.yaml')) as { primaries: { id: string; rows: Row[] }[] }
      ).primaries.map(({ id, rows }) => [id, rows]),
    ),
  ],
];

describe.each(routed)('the routes of %s, marched a second way', (name, routes) => {
  const demo = parse(textOf(name)) as Demo;
  const { tube, collector, clear, primaries } = demo;
  const rad = Math.PI / 180;
  const STEP = 1;
  const ids = Object.keys(routes);
  const rowsOf = (id: string): Row[] => routes[id] ?? [];

  it('there are four of them', () => expect(ids).toEqual(['P1', 'P2', 'P3', 'P4']));

  const down = demo.ports.leaving.down * rad;
  const lines: Marched[] = ids.map((id, i) =>
    march(
      [i * demo.ports.row.pitch, 0, demo.flange.thickness],
      [0, -Math.sin(down), Math.cos(down)],
      [0, 1, 0],
      rowsOf(id),
      STEP,
    ),
  );
  const lineOf = (id: string): Marched => {
    const line = lines[ids.indexOf(id)];
    if (line === undefined) throw new Error(`no line ${id}`);
    return line;
  };

  // r = (OD + gap) / (2 sin(pi / n)); S1 stands at the clocking from `out` made square to the flow.
  const flow = unit(collector.flow);
  const zero = squared([0, 0, 1], flow);
  const ring = (tube.od + collector.slot_gap) / (2 * Math.sin(Math.PI / 4));
  const slotAt = (id: string): V => {
    const turn = (collector.clocking + 90 * (Number(id.slice(1)) - 1)) * rad;
    const away = plus(plus([0, 0, 0], zero, Math.cos(turn)), cross(flow, zero), Math.sin(turn));
    return plus(collector.at, away, ring);
  };

  /** Sampled distances are never more than this over the least there is: half a step on either line. */
  const overLine = STEP / 2;
  const overPair = STEP;

  // Routes in whole half degrees and half millimetres end where a slip joint still takes them up: 0.5 mm and
  // 0.5 deg (common practice, no source); all others exactly.
  const whole = ids.every((id) =>
    rowsOf(id).every((row) =>
      Object.entries(row).every(([key, x]) => key === 'clr' || Number.isInteger(2 * x)),
    ),
  );
  const [off, lean] = whole ? [0.5, Math.sin(0.5 * rad)] : [1e-6, 1e-9];
  const apart = whole ? demo.length.spread : 1e-4;

  it('the routed ones are in round numbers, those by hand are exact', () =>
    expect(whole).toBe(name === 'hillclimb-four'));

  it.each(ids)('%s meets its slot: 1e-6 mm and 1e-9, or as near as a joint takes up', (id) => {
    const { end } = lineOf(id);
    expect(far(end.at, slotAt(collector.slots[ids.indexOf(id)] ?? ''))).toBeLessThan(off);
    expect(size(cross(end.flow, flow))).toBeLessThan(lean);
    expect(dot(end.flow, flow)).toBeGreaterThan(0);
  });

  it('all four are of the length asked, within 1e-4 mm or the spread', () => {
    const { target, between: [from, to] = [target ?? NaN, target ?? NaN] } = demo.length;
    for (const { length } of lines) {
      for (const other of lines) expect(Math.abs(length - other.length)).toBeLessThan(apart);
      expect(length).toBeGreaterThan(from - apart);
      expect(length).toBeLessThan(to + apart);
    }
  });

  it('neighbours round the ring fire in turn', () => {
    const inRing = ['S1', 'S2', 'S3', 'S4'].map((slot) => collector.slots.indexOf(slot) + 1);
    const turns = inRing.map((_, k) => [...inRing.slice(k), ...inRing.slice(0, k)].join());
    const order = demo.engine.firing_order;
    expect([...turns, ...turns.map((turn) => turn.split(',').reverse().join())]).toContain(order.join());
  });

  it("straights are no shorter than asked, bends lie on the rack's CLRs within the stock's angle", () => {
    const rack = parse(textOf(name, demo.rack)) as {
      tube: object;
      bends: { clr: number; angle: number }[];
    };
    expect(rack.tube).toMatchObject(tube);
    for (const id of ids) {
      const rows = rowsOf(id);
      const last = rows.length - 1;
      rows.forEach((row, i) => {
        if ('straight' in row) {
          const asked = i === 0 ? primaries.stub : i === last ? primaries.last_straight : primaries.between;
          expect(row.straight).toBeGreaterThanOrEqual(asked);
        } else expect(rack.bends.some(({ clr, angle }) => clr === row.clr && row.angle <= angle)).toBe(true);
      });
    }
    expect(primaries.last_straight).toBeGreaterThanOrEqual(collector.slip.depth + 15);
  });

  it('primaries keep 6 mm from each other, 4 where a last bend stands beside another near the slots', () => {
    for (const [i, a] of lines.entries())
      for (const b of lines.slice(i + 1)) {
        const lastOfA = a.spans.length - 1;
        const lastOfB = b.spans.length - 1;
        for (const p of a.stations)
          for (const q of b.stations) {
            // Last straights among themselves stand as the slots do.
            if (p.row === lastOfA && q.row === lastOfB) continue;
            const near = p.row >= lastOfA - 1 && q.row >= lastOfB - 1;
            const asked = near ? clear.near_slots : clear.tube_to_tube;
            const gap = far(p.p, q.p) - tube.od - overPair;
            if (gap < asked) expect.fail(`${ids[i]}: ${gap} mm at ${p.s} and ${q.s}; ${asked} asked`);
          }
      }
  });

  it('primaries keep 1 mm from the sleeves of the others, whose outside stands 1 mm or more from its like', () => {
    const sleeve = tube.od + collector.slip.gap + 2 * tube.wall;
    expect(collector.slot_gap - (sleeve - tube.od)).toBeGreaterThanOrEqual(1);
    lines.forEach((_, i) => {
      const to = slotAt(collector.slots[i] ?? '');
      const body = { cylinder: { from: plus(to, flow, -collector.slip.depth), to, diameter: sleeve } };
      lines.forEach((line, j) => {
        if (i === j) return;
        const found = least(line.stations, ({ p }) => toBody(body, p)) - tube.od / 2 - overLine;
        expect(found).toBeGreaterThanOrEqual(1);
      });
    });
  });

  it('a primary keeps 6 mm from itself, apart by pi x its least CLR or more', () => {
    for (const [i, { stations }] of lines.entries()) {
      const clrs = rowsOf(ids[i] ?? '').flatMap((row) => ('clr' in row ? [row.clr] : []));
      const apart = Math.PI * Math.min(...clrs);
      const found = least(stations, (a) =>
        least(stations, (b) => (b.s - a.s < apart ? Infinity : far(a.p, b.p) - tube.od)),
      );
      expect(found - overPair).toBeGreaterThanOrEqual(clear.tube_to_tube);
    }
  });

  it.each(demo.keep_outs.map((one) => [one.name, one] as const))(
    'primaries stay clear of the %s',
    (_, one) => {
      const asked = one.clear ?? 8;
      for (const [i, { stations }] of lines.entries()) {
        // The head is waived over the stub.
        const from = one.head_of?.includes(ids[i] ?? '') ? primaries.stub : 0;
        const judged = stations.filter(({ s }) => s >= from);
        expect(least(judged, ({ p }) => toBody(one, p)) - tube.od / 2 - overLine).toBeGreaterThanOrEqual(
          asked,
        );
      }
    },
  );

  it("primaries stay clear of the collector's body before their last straight", () => {
    const { length, diameter, clear: asked } = collector.body;
    const body = { cylinder: { from: collector.at, to: plus(collector.at, flow, length.value), diameter } };
    for (const { stations, spans } of lines) {
      const judged = stations.filter(({ row }) => row < spans.length - 1);
      expect(least(judged, ({ p }) => toBody(body, p)) - tube.od / 2 - overLine).toBeGreaterThanOrEqual(
        asked,
      );
    }
  });

  it('a socket of 25 mm reaches every nut over 120 mm (M8: conservative table of head clearances, + 3 mm)', () => {
    const { count, pitch } = demo.ports.row;
    const studs = Array.from({ length: count }, (_, i) =>
      demo.studs.beside_each_port.map(([right, up]): V => [i * pitch + right, up, demo.flange.thickness]),
    ).flat();
    expect(studs).toHaveLength(8);
    for (const from of studs) {
      const body = { cylinder: { from, to: plus(from, [0, 0, 120]), diameter: 25 } };
      for (const { stations } of lines)
        expect(least(stations, ({ p }) => toBody(body, p)) - tube.od / 2 - overLine).toBeGreaterThanOrEqual(
          0,
        );
    }
  });

  it("each cradle's tube leans less than 35 degrees, on one row, 40 mm from the flange and clear of the sleeve", () => {
    const { base, cradle } = demo.tack_fixture;
    // Those that the program chooses are looked at in tests/design/cradle-stations.test.ts.
    if (cradle.at === 'auto') return expect(name).toBe('hillclimb-four');
    const kinds = { straight: 0, bend: 0 };
    for (const { primary, station } of cradle.at) {
      const { stations, spans, length } = lineOf(primary);
      const row = spans.findIndex(([from, to]) => station > from && station < to);
      const [from, to] = spans[row] ?? [0, 0];
      const here = stations.reduce((a, b) => (Math.abs(b.s - station) < Math.abs(a.s - station) ? b : a));
      const lean = Math.abs(Math.asin(dot(here.flow, unit(base.normal))));
      expect(lean / rad).toBeLessThan(35);
      // The saddle's end planes stand square to the base, so a leaning tube is held over more of its length.
      const radius = tube.od / 2 + 0.6;
      const reach = (cradle.width / 2 + radius * Math.sin(lean)) / Math.cos(lean);
      expect(Math.min(station - from, to - station)).toBeGreaterThan(reach);
      expect(station - cradle.width).toBeGreaterThanOrEqual(40);
      expect(length - station - cradle.width).toBeGreaterThanOrEqual(collector.slip.depth + 40);
      kinds['clr' in (rowsOf(primary)[row] ?? {}) ? 'bend' : 'straight'] += 1;
    }
    expect(kinds.straight).toBeGreaterThanOrEqual(2);
    expect(kinds.bend).toBeGreaterThanOrEqual(2);
    expect(kinds.straight + kinds.bend).toBeGreaterThanOrEqual(6);
  });
});
