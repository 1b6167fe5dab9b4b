import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { far, march, toBody, type Marched, type Row, type Station, type V } from './plain-march.js';
import { movedBy, plainRouteJob, waivedUntil, type PlainJob } from './plain-route-job.js';

/*
 * A judge of routes that shares nothing with the router: it reads the job's YAML itself, marches the rows by
 * its own formulas, and measures clearance by brute force over points every half millimetre. What it finds
 * short is short; what lies between its points it may miss by a few hundredths of a millimetre.
 */
export interface JudgedRecord {
  readonly length: number;
  readonly collector: {
    readonly at: readonly number[];
    readonly flow: readonly number[];
    readonly clocking: number;
  };
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

/** Welds of a primary by the closed rule for stock of a larger angle: k + max(1, straights longer than a leg). */
export const weldsByRule = (rows: readonly Row[], leg: number): number =>
  rows.filter((row) => 'clr' in row).length +
  Math.max(1, rows.filter((row) => 'straight' in row && row.straight > leg).length);

/** What rounded routes may differ by: mm and degrees at the slot, mm of length. Nothing, where all is exact. */
export interface Allowed {
  readonly distance: number;
  readonly angle: number;
  readonly spread: number;
}

const rad = Math.PI / 180;
const EXACT: Allowed = { distance: 0, angle: 0, spread: 0 };

interface RackWritten {
  readonly bends: readonly { readonly clr: number; readonly legs: readonly number[] }[];
}

/** The longest leg on a rack, mm. */
export const longestLeg = (rackText: string): number =>
  Math.max(...(parse(rackText) as RackWritten).bends.flatMap(({ legs }) => legs));

/** Judges a record of a routing case; `text` stands in for its job file where a test has changed it. */
export const judge = (
  folder: string,
  record: JudgedRecord,
  step = 0.5,
  text = readFileSync(`${folder}/job.yaml`, 'utf8'),
  allowed = EXACT,
): Verdict => judgeRoutes(text, readFileSync(`${folder}/rack.yaml`, 'utf8'), record, step, allowed);

/** Judges a record against its job and rack. `step` is how far apart (mm) points are looked at. */
export function judgeRoutes(
  text: string,
  rackText: string,
  record: JudgedRecord,
  step = 0.5,
  allowed = EXACT,
): Verdict {
  const job = plainRouteJob(text);
  const rack = parse(rackText) as RackWritten;
  const faults: string[] = [];
  const pose = {
    at: record.collector.at as unknown as V,
    flow: record.collector.flow as unknown as V,
    clocking: record.collector.clocking,
  };
  judgePose(job, pose, faults);
  const slots = job.slotsAt(pose);
  const bodies = job.bodiesAt(pose);
  const lines: Marched[] = [];
  const taken: number[] = [];
  let spare = Infinity;
  const asked = (value: number, what: string): void => {
    spare = Math.min(spare, value);
    if (!(value >= -1e-6)) faults.push(`${what}: ${(-value).toFixed(4)} mm short`);
  };
  if (record.primaries.length !== job.starts.length) faults.push('primaries are missing');
  record.primaries.forEach((primary, i) => {
    const port = job.starts[i];
    const number = slots.findIndex(({ id }) => id === primary.slot);
    const slot = slots[number];
    if (port === undefined || slot === undefined || taken.includes(number) || port.id !== primary.id)
      return void faults.push(`${primary.id} takes ${primary.slot} wrongly`);
    taken.push(number);
    const line = march(port.at, port.flow, port.reference, primary.rows, step);
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
    const [least, most] = job.limits.window;
    if (!(line.length >= least - off && line.length <= most + off))
      faults.push(`${primary.id} out of the window`);
    judgeRows(job, rack, primary, faults);
    const lastRow = primary.rows.length - 1;
    for (const one of bodies) {
      if (one.sleeveOf === primary.slot) continue;
      const waived = waivedUntil(job, port, one);
      if (Number.isNaN(waived)) faults.push(`${port.id} does not clear ${one.name}`);
      for (const here of line.stations) {
        if (here.s < waived || (one.ofCollector && here.row === lastRow)) continue;
        asked(
          toBody(one.body, here.p) - job.od / 2 - one.clear,
          `${primary.id} to ${one.name} at ${here.s.toFixed(1)}`,
        );
      }
    }
    // Itself: points further apart along it than pi x its least CLR.
    const apart = Math.PI * Math.min(...primary.rows.flatMap((row) => ('clr' in row ? [row.clr] : [])));
    const coarse = line.stations.filter((_, k) => k % Math.ceil(4 / step) === 0);
    for (const a of coarse)
      for (const b of coarse)
        if (b.s - a.s > apart) asked(far(a.p, b.p) - job.od - job.clear.tubes, `${primary.id} to itself`);
  });
  if (!job.orderAllowed(taken)) faults.push(`slots ${taken.join(', ')} are not the order asked`);
  judgePairs(job, record, lines, step, asked);
  const leg = longestLeg(rackText);
  const welds = record.primaries.reduce((sum, { rows }) => sum + weldsByRule(rows, leg), 0);
  return { faults: [...new Set(faults)].slice(0, 12), spare, welds };
}

/** The collector stands where the job says, or no further off than it may be moved. */
function judgePose(job: PlainJob, pose: { at: V; flow: V; clocking: number }, faults: string[]): void {
  const { along, across, tilt } = movedBy(job, pose);
  const { mayMove, collector } = job;
  if (along > mayMove.along + 1e-6 || across > mayMove.across + 1e-6 || tilt > mayMove.tilt + 1e-6)
    faults.push(`the collector is moved by ${along}, ${across}, ${tilt}`);
  if (Math.abs(Math.hypot(...pose.flow) - 1) > 1e-9) faults.push('the flow is no unit direction');
  if (collector.clocking !== undefined && Math.abs(collector.clocking - pose.clocking) > 1e-6)
    faults.push(`the collector is clocked ${pose.clocking}`);
}

function judgeRows(
  { limits }: PlainJob,
  rack: RackWritten,
  { id, rows }: JudgedRecord['primaries'][number],
  faults: string[],
): void {
  if (rows.length % 2 === 0) faults.push(`${id} does not end in a straight`);
  rows.forEach((row, k) => {
    if ('straight' in row) {
      const floor = k === 0 ? limits.stub : k === rows.length - 1 ? limits.last : limits.between;
      if (!(row.straight >= floor - 1e-6)) faults.push(`${id} row ${k}: straight of ${row.straight}`);
    } else {
      if (!(row.angle >= limits.leastAngle - 1e-6 && row.angle <= limits.largestAngle + 1e-6))
        faults.push(`${id} row ${k}: angle of ${row.angle}`);
      if (!rack.bends.some((bend) => bend.clr === row.clr)) faults.push(`${id} row ${k}: no such bend`);
    }
    if ('straight' in row !== (k % 2 === 0)) faults.push(`${id} row ${k}: rows out of turn`);
  });
}

/** Pairs: near_slots between a last bend and the other's last bend or last straight; last straights not at all. */
function judgePairs(
  { od, clear }: PlainJob,
  record: JudgedRecord,
  lines: readonly Marched[],
  step: number,
  asked: (value: number, what: string) => void,
): void {
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
          asked(
            gap - od - (near ? clear.nearSlots : clear.tubes),
            `${record.primaries[i]?.id} to ${record.primaries[j]?.id}`,
          );
        }
      }
    }),
  );
}
