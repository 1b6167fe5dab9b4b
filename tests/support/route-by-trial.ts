import { parse } from 'yaml';
import { mixSeed, randomFrom, type Random } from '../../src/base/random.js';
import { judgeRoutes, type JudgedRecord } from './judge.js';
import {
  cross,
  dot,
  far,
  march,
  plus,
  squared,
  toBody,
  unit,
  type Marched,
  type Row,
  type Station,
  type V,
} from './plain-march.js';
import {
  plainRouteJob,
  waivedUntil,
  type PlainJob,
  type PlainPose,
  type PlainSlot,
  type PlainStart,
} from './plain-route-job.js';

/*
 * A header by plain trial, to hold against what the router says cannot be, and to plant headers in jobs that
 * are solvable by make. Tubes of two and three bends are drawn at random, brought to one length by halving an
 * interval, looked at every few millimetres, and put together by trying.
 */
const deg = 180 / Math.PI;
/** Points of trial tubes lie so far apart at most, mm. */
const STEP = 5;

interface Tube {
  readonly slot: number;
  readonly rows: readonly Row[];
  readonly line: Marched;
}

export interface TrialRules {
  readonly seed: number;
  /** Tubes drawn for each port and slot. */
  readonly tries: number;
  /** Tubes kept for each port and slot. */
  readonly keep: number;
  /** Lengths of the window that are tried. */
  readonly lengths: number;
}

export interface TrialHeader {
  readonly record: JudgedRecord;
  readonly pose: PlainPose;
}

/** A whole header that the judge finds no fault with, or undefined where trying did not come to one. */
export function headerByTrial(text: string, rackText: string, rules: TrialRules): TrialHeader | undefined {
  const job = plainRouteJob(text);
  const clrs = (parse(rackText) as { bends: { clr: number }[] }).bends.map(({ clr }) => clr);
  const [from, to] = job.limits.window;
  for (let n = 0; n < rules.lengths; n++) {
    const random = randomFrom(mixSeed(rules.seed, n));
    const length = from === to ? from : random.between(from, to);
    const clocking = job.collector.clocking ?? random.between(0, 360);
    const pose = { at: job.collector.at, flow: job.collector.flow, clocking };
    const slots = job.slotsAt(pose);
    const bodies = job.bodiesAt(pose);
    const tubes = job.starts.map((start) => {
      const near = bodies.map((one) => ({ ...one, waived: waivedUntil(job, start, one) }));
      const clears = (line: Marched, slot: PlainSlot): boolean =>
        near.every(
          (one) =>
            one.sleeveOf === slot.id ||
            line.stations.every(
              ({ p, s, row }) =>
                s < one.waived ||
                (one.ofCollector && row === line.spans.length - 1) ||
                toBody(one.body, p) - job.od / 2 - one.clear > 0.2,
            ),
        );
      return slots.flatMap((slot, j) => {
        const kept: Tube[] = [];
        for (let t = 0; t < rules.tries && kept.length < rules.keep; t++) {
          const rows = drawRows(job, start, slot, clrs, length, random);
          if (rows === undefined) continue;
          const line = march(start.at, start.flow, start.reference, rows, STEP);
          if (clears(line, slot) && clearsItself(job, line, rows)) kept.push({ slot: j, rows, line });
        }
        return kept;
      });
    });
    const set = putTogether(job, tubes, random);
    if (set === undefined) continue;
    const record = recordOf(job, slots, pose, set);
    if (judgeRoutes(text, rackText, record, 1).faults.length === 0) return { record, pose };
  }
  return undefined;
}

/** Rows of a random tube of the length from a port to a slot, that keeps the limits. */
function drawRows(
  { limits }: PlainJob,
  start: PlainStart,
  slot: PlainSlot,
  clrs: readonly number[],
  length: number,
  random: Random,
): readonly Row[] | undefined {
  const reach = length / 2;
  const bends = random.chance(0.5) ? 2 : 3;
  const radii = Array.from({ length: bends }, () => random.pick(clrs));
  let a = limits.stub + random.next() ** 2 * reach;
  const b = limits.last + random.next() ** 2 * reach;
  const middle = plus(plus(start.at, slot.at, 1), [0, 0, 0], 1).map((x) => x / 2) as unknown as V;
  const way = unit([random.between(-1, 1), random.between(-1, 1), random.between(-1, 1.0001)]);
  const corners = (x: number): V[] => {
    const [first, last] = [plus(start.at, start.flow, bends === 2 ? x : a), plus(slot.at, slot.flow, -b)];
    return bends === 2
      ? [start.at, first, last, slot.at]
      : [start.at, first, plus(middle, way, x), last, slot.at];
  };
  const over = (x: number): number => lengthOf(corners(x), radii) - length;
  const [low, high] = bends === 2 ? [limits.stub, length] : [0, reach];
  // Where the length goes through what is asked: first by steps, then by halving.
  const steps = 12;
  const offset = random.next();
  let [x0, f0] = [low, over(low)];
  for (let k = 1; k <= steps; k++) {
    const x1 = low + ((high - low) * (k - offset)) / steps;
    const f1 = over(x1);
    if (Number.isFinite(f0) && Number.isFinite(f1) && f0 * f1 < 0) {
      let [p, q, fp] = [x0, x1, f0];
      for (let h = 0; h < 60; h++) {
        const m = (p + q) / 2;
        const fm = over(m);
        if (!Number.isFinite(fm)) return undefined;
        if (fm * fp > 0) [p, fp] = [m, fm];
        else q = m;
      }
      a = bends === 2 ? p : a;
      const rows = rowsThroughCorners(start, corners(p), radii);
      if (rows && keepsLimits(limits, rows)) return rows;
    }
    [x0, f0] = [x1, f1];
  }
  return undefined;
}

/** Length of the tube through corners; not a number where a bend would double back. */
function lengthOf(corners: readonly V[], radii: readonly number[]): number {
  let length = 0;
  for (let i = 1; i < corners.length; i++) length += far(corners[i] as V, corners[i - 1] as V);
  radii.forEach((clr, i) => {
    const [p, q, r] = corners.slice(i, i + 3) as [V, V, V];
    const angle = Math.acos(Math.max(-1, Math.min(1, dot(unit(plus(q, p, -1)), unit(plus(r, q, -1))))));
    length += angle > 2.9 ? NaN : clr * (angle - 2 * Math.tan(angle / 2));
  });
  return length;
}

export function rowsThroughCorners(
  start: PlainStart,
  corners: readonly V[],
  radii: readonly number[],
): Row[] | undefined {
  const rows: Row[] = [];
  let reference = start.reference;
  let before = 0;
  for (const [i, clr] of radii.entries()) {
    const [p, q, r] = corners.slice(i, i + 3) as [V, V, V];
    const [d, e] = [unit(plus(q, p, -1)), unit(plus(r, q, -1))];
    const angle = Math.atan2(Math.hypot(...cross(d, e)), dot(d, e));
    const tangent = clr * Math.tan(angle / 2);
    const zero = squared(reference, d);
    const toward = squared(e, d);
    const clock = Math.atan2(dot(cross(zero, toward), d), dot(zero, toward)) * deg;
    rows.push({ straight: far(p, q) - before - tangent }, { clr, angle: angle * deg, clock });
    before = tangent;
    reference = squared([-d[0], -d[1], -d[2]], e);
  }
  const [p, q] = corners.slice(-2) as [V, V];
  rows.push({ straight: far(p, q) - before });
  return rows.every((row) => Object.values(row).every(Number.isFinite)) ? rows : undefined;
}

const keepsLimits = (limits: PlainJob['limits'], rows: readonly Row[]): boolean =>
  rows.every((row, k) =>
    'straight' in row
      ? row.straight >= (k === 0 ? limits.stub : k === rows.length - 1 ? limits.last : limits.between)
      : row.angle >= limits.leastAngle && row.angle <= limits.largestAngle,
  );

/** Looked at every 15 mm: the judge has the last word. */
function clearsItself({ od, clear }: PlainJob, line: Marched, rows: readonly Row[]): boolean {
  const apart = Math.PI * Math.min(...rows.flatMap((row) => ('clr' in row ? [row.clr] : [])));
  const stations = line.stations.filter((_, k) => k % 3 === 0);
  return stations.every((a) =>
    stations.every((b) => b.s - a.s <= apart || far(a.p, b.p) > od + clear.tubes + 0.2),
  );
}

/** Whether two tubes clear each other, looked at every few millimetres. */
function clearEachOther({ od, clear }: PlainJob, a: Marched, b: Marched): boolean {
  const [endA, endB] = [a.spans.length - 2, b.spans.length - 2];
  const most = od + Math.max(clear.tubes, clear.nearSlots) + 0.2;
  for (const p of a.stations)
    for (let k = 0; k < b.stations.length; k++) {
      const q = b.stations[k] as Station;
      const gap = far(p.p, q.p);
      // Nothing within that way along the tube can be too near.
      if (gap > most + STEP) k += Math.floor((gap - most) / STEP) - 1;
      const near = p.row >= endA && q.row >= endB;
      if (near && p.row > endA && q.row > endB) continue;
      if (gap < od + (near ? clear.nearSlots : clear.tubes) + 0.2) return false;
    }
  return true;
}

const MOST_LOOKS = 4000;

/** One tube of each list, slots allowed and all clear of each other; the list with the fewest is settled first. */
function putTogether(job: PlainJob, tubes: readonly (readonly Tube[])[], random: Random): Tube[] | undefined {
  const order = tubes.map((_, i) => i).sort((x, y) => (tubes[x]?.length ?? 0) - (tubes[y]?.length ?? 0));
  const chosen: Tube[] = [];
  let looks = 0;
  const settle = (k: number): boolean => {
    const primary = order[k];
    if (primary === undefined) return job.orderAllowed(chosen.map(({ slot }) => slot));
    const list = [...(tubes[primary] ?? [])].sort(() => random.next() - 0.5);
    for (const tube of list) {
      const placed = order.slice(0, k).map((i) => chosen[i] as Tube);
      if (placed.some(({ slot }) => slot === tube.slot)) continue;
      if (looks++ > MOST_LOOKS) return false;
      if (!placed.every((other) => clearEachOther(job, other.line, tube.line))) continue;
      chosen[primary] = tube;
      if (settle(k + 1)) return true;
    }
    return false;
  };
  return settle(0) ? chosen : undefined;
}

function recordOf(
  job: PlainJob,
  slots: readonly PlainSlot[],
  { at, flow, clocking }: PlainPose,
  set: readonly Tube[],
): JudgedRecord {
  const primaries = set.map(({ rows, line, slot }, i) => ({
    id: job.starts[i]?.id ?? '',
    slot: slots[slot]?.id ?? '',
    rows,
    end: { at: line.end.at, direction: line.end.flow },
    length: line.length,
  }));
  return { length: primaries[0]?.length ?? NaN, collector: { at, flow, clocking }, primaries };
}
