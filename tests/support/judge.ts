import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import {
  cross,
  dot,
  far,
  march,
  plus,
  toBody,
  unit,
  type Body,
  type Marched,
  type Row,
  type Station,
  type V,
} from './plain-march.js';

/*
 * A judge of routes that shares nothing with the router: it reads the job's YAML itself, marches the rows by
 * its own formulas, and measures clearance by brute force over points every half millimetre. It judges jobs
 * written as the routing cases are: ports one by one with directions, no flange, collector clocked.
 */
const rad = Math.PI / 180;

interface WrittenJob {
  ports: { each: { at: V; direction: V }[] };
  tube: { od: number };
  primaries: {
    stub: number;
    between: number;
    last_straight: number;
    least_angle: number;
    largest_angle: number;
  };
  collector: {
    at: { right: number; up: number; out: number };
    flow: { right: number; up: number; out: number };
    half_angle: number;
    clocking: number;
    slot_gap: number;
    body: { length: number; diameter: number; clear: number };
  };
  length: { between: [number, number] };
  keep_outs: ({ name: string; clear: number; head_of?: string[] } & Body)[];
  clear: { tube_to_tube: number; near_slots: number };
}

export interface JudgedRecord {
  readonly length: number;
  readonly primaries: readonly {
    readonly id: string;
    readonly slot: string;
    readonly rows: readonly Row[];
    readonly end: { readonly at: readonly number[]; readonly direction: readonly number[] };
    readonly length: number;
  }[];
}

export interface Verdict {
  /** What is wrong, in words; empty where nothing is. */
  readonly faults: readonly string[];
  /** Least spare (mm over what is asked) found anywhere, by brute force. */
  readonly spare: number;
  readonly welds: number;
}

/** Slots by the job file's own rule: r = (OD + gap) / (2 sin(pi / n)), flow cos h - side sin h. */
function slotsOf({ collector: c, tube }: WrittenJob, count: number): { id: string; at: V; flow: V }[] {
  const at: V = [c.at.right, c.at.up, c.at.out];
  const flow = unit([c.flow.right, c.flow.up, c.flow.out]);
  const out: V = [0, 0, 1];
  const zero = unit(plus(out, flow, -dot(out, flow)));
  const across = cross(flow, zero);
  const r = (tube.od + c.slot_gap) / (2 * Math.sin(Math.PI / count));
  return Array.from({ length: count }, (_, i) => {
    const turn = (c.clocking + (360 * i) / count) * rad;
    const side = plus(plus([0, 0, 0], zero, Math.cos(turn)), across, Math.sin(turn));
    const lean = c.half_angle * rad;
    const direction = plus(plus([0, 0, 0], flow, Math.cos(lean)), side, -Math.sin(lean));
    return { id: `S${i + 1}`, at: plus(at, side, r), flow: direction };
  });
}

/** Welds of a primary by the closed rule for stock of a larger angle: k + max(1, straights longer than a leg). */
const weldsByRule = (rows: readonly Row[], leg: number): number =>
  rows.filter((row) => 'clr' in row).length +
  Math.max(1, rows.filter((row) => 'straight' in row && row.straight > leg).length);

/** What rounded routes may differ by: mm and degrees at the slot, mm of length. Nothing, where all is exact. */
export interface Allowed {
  readonly distance: number;
  readonly angle: number;
  readonly spread: number;
}

/**
 * Judges a record against the job file of a case. `step` is how far apart (mm) points are looked at; `text`
 * stands in for the job file where a test has changed it.
 */
export function judge(
  folder: string,
  record: JudgedRecord,
  step = 0.5,
  text = readFileSync(`${folder}/job.yaml`, 'utf8'),
  allowed: Allowed = { distance: 0, angle: 0, spread: 0 },
): Verdict {
  const job = parse(text) as WrittenJob;
  const rack = parse(readFileSync(`${folder}/rack.yaml`, 'utf8')) as {
    bends: { clr: number; legs: number[] }[];
  };
  const faults: string[] = [];
  const { od } = job.tube;
  const slots = slotsOf(job, job.ports.each.length);
  const reference: V = [0, 1, 0];
  const lines: Marched[] = [];
  const taken = new Set<string>();
  let spare = Infinity;
  const asked = (value: number, what: string): void => {
    spare = Math.min(spare, value);
    if (value < -1e-6) faults.push(`${what}: ${value.toFixed(4)} mm short`);
  };

  record.primaries.forEach((primary, i) => {
    const port = job.ports.each[i];
    const slot = slots.find(({ id }) => id === primary.slot);
    if (port === undefined || slot === undefined || taken.has(primary.slot))
      return void faults.push(`${primary.id} takes ${primary.slot} wrongly`);
    taken.add(primary.slot);
    const flow = unit(port.direction);
    const upright = Math.hypot(...cross(flow, reference)) < Math.sin(8 * rad) ? ([0, 0, 1] as V) : reference;
    const line = march(port.at, flow, upright, primary.rows, step);
    lines.push(line);
    if (far(line.end.at, slot.at) > Math.max(1e-6, allowed.distance))
      faults.push(`${primary.id} ends ${far(line.end.at, slot.at)} mm off`);
    if (far(line.end.flow, slot.flow) > Math.max(1e-8, 2 * Math.sin((allowed.angle * rad) / 2)))
      faults.push(`${primary.id} ends pointing elsewhere`);
    if (far(line.end.at, primary.end.at as unknown as V) > 1e-6) faults.push(`${primary.id}: end misstated`);
    if (Math.abs(line.length - primary.length) > 1e-6) faults.push(`${primary.id}: length misstated`);
    if (far(line.end.flow, primary.end.direction as unknown as V) > 1e-8)
      faults.push(`${primary.id}: direction of its end misstated`);
    const off = Math.max(1e-4, allowed.spread);
    if (line.length > record.length + 1e-4 || line.length < record.length - off)
      faults.push(`${primary.id} is ${line.length} mm long`);
    const [least, most] = job.length.between;
    if (line.length < least - off || line.length > most + off) faults.push(`${primary.id} out of the window`);
    primary.rows.forEach((row, k) => {
      const first = k === 0;
      const last = k === primary.rows.length - 1;
      const { stub, last_straight, between, least_angle, largest_angle } = job.primaries;
      if ('straight' in row) {
        const floor = first ? stub : last ? last_straight : between;
        if (row.straight < floor - 1e-6) faults.push(`${primary.id} row ${k}: straight of ${row.straight}`);
      } else {
        if (row.angle < least_angle - 1e-6 || row.angle > largest_angle + 1e-6)
          faults.push(`${primary.id} row ${k}: angle of ${row.angle}`);
        if (!rack.bends.some((bend) => bend.clr === row.clr))
          faults.push(`${primary.id} row ${k}: no such bend`);
      }
    });
    // Obstacles: own head waived until the axis first clears it and over the stub, collector over the last straight.
    const bodies: { name: string; clear: number; head_of?: string[]; mouth?: boolean; body: Body }[] =
      job.keep_outs.map((k) => ({ ...k, body: k }));
    const c = job.collector;
    const from: V = [c.at.right, c.at.up, c.at.out];
    const to = plus(from, unit([c.flow.right, c.flow.up, c.flow.out]), c.body.length);
    const cylinder = { from, to, diameter: c.body.diameter };
    bodies.push({ name: 'collector', clear: c.body.clear, mouth: true, body: { cylinder } });
    const lastRow = primary.rows.length - 1;
    for (const { name, clear, head_of, mouth, body } of bodies) {
      let waived = 0;
      if (head_of?.includes(primary.id)) {
        waived = job.primaries.stub;
        while (toBody(body, plus(port.at, flow, waived)) - od / 2 - clear < 0) waived += 0.01;
      }
      for (const here of line.stations) {
        if (here.s < waived || (mouth && here.row === lastRow)) continue;
        asked(toBody(body, here.p) - od / 2 - clear, `${primary.id} to ${name} at ${here.s.toFixed(1)}`);
      }
    }
    // Itself: points further apart along it than pi x its least CLR.
    const apart = Math.PI * Math.min(...primary.rows.flatMap((row) => ('clr' in row ? [row.clr] : [])));
    const coarse = line.stations.filter((_, k) => k % 8 === 0);
    for (const a of coarse)
      for (const b of coarse)
        if (b.s - a.s > apart) asked(far(a.p, b.p) - od - job.clear.tube_to_tube, `${primary.id} to itself`);
  });
  // Pairs: near_slots between a last bend and the other's last bend or last straight; last straights not at all.
  lines.forEach((a, i) =>
    lines.slice(0, i).forEach((b, j) => {
      const ends = (line: Marched): number => line.spans.length - 2;
      for (const p of a.stations) {
        const pEnd = p.row - ends(a);
        for (let k = 0; k < b.stations.length; k++) {
          const q = b.stations[k] as Station;
          const gap = far(p.p, q.p);
          const beyond = gap - od - 60;
          if (beyond > 0) {
            // No point within that way along the tube can be nearer than 60 mm of touching.
            k += Math.floor(beyond / step);
            continue;
          }
          const qEnd = q.row - ends(b);
          if (pEnd === 1 && qEnd === 1) continue;
          const near = pEnd >= 0 && qEnd >= 0;
          const clear = near ? job.clear.near_slots : job.clear.tube_to_tube;
          asked(gap - od - clear, `${record.primaries[i]?.id} to ${record.primaries[j]?.id}`);
        }
      }
    }),
  );
  const leg = Math.max(...rack.bends.flatMap(({ legs }) => legs));
  const welds = record.primaries.reduce((sum, { rows }) => sum + weldsByRule(rows, leg), 0);
  return { faults: [...new Set(faults)].slice(0, 12), spare, welds };
}
