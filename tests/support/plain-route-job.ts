import { parse } from 'yaml';
import { cross, dot, far, plus, squared, toBody, unit, type Body, type V } from './plain-march.js';

/*
 * A second reading of a job that is to be routed, for judging answers: starts, slots, limits and all that
 * tubes keep clear of, by the job file's own rules written out again. It shares nothing with the program, so
 * it reads only what the jobs of these tests are written with.
 */
const rad = Math.PI / 180;
const out: V = [0, 0, 1];
const up: V = [0, 1, 0];
type Place = V | { right: number; up: number; out: number };

interface Written {
  engine?: { firing_order?: number[] };
  ports: {
    row?: { count: number; pitch: number; first?: string };
    leaving?: Tilt;
    each?: { at: V; direction?: V; leaving?: Tilt; face?: { normal: V } }[];
  };
  studs?: { thread: 'M6' | 'M8' | 'M10'; beside_each_port: [number, number][] };
  flange?: { thickness: number };
  tube: { od: number; wall: number };
  primaries: { stub: number; between: number; last_straight?: number } & Record<
    'least_angle' | 'largest_angle',
    number
  >;
  collector: {
    joint: 'slip' | 'welded';
    at: Place;
    flow: Place | { down: number; heading: number };
    half_angle: number;
    clocking?: number;
    slot_gap?: number;
    slip?: { depth: number; gap: number };
    body: { length: number; diameter?: number; clear: number };
    may_move?: { along?: number; across?: number; tilt?: number };
    slots: 'shortest' | 'firing' | string[];
  };
  length: { target?: number; between?: [number, number] };
  keep_outs: ({ name: string; clear: number; head_of?: string[] } & Body)[];
  clear: { tube_to_tube: number; near_slots: number };
}
interface Tilt {
  down?: number;
  right?: number;
}

export interface PlainStart {
  readonly id: string;
  readonly at: V;
  readonly flow: V;
  readonly reference: V;
}
export interface PlainSlot {
  readonly id: string;
  readonly at: V;
  readonly flow: V;
}
/** Something to keep clear of. */
export interface PlainBody {
  readonly name: string;
  readonly body: Body;
  readonly clear: number;
  readonly headOf: readonly string[];
  /** Waived over last straights. */
  readonly ofCollector: boolean;
  /** Waived for the primary of this slot. */
  readonly sleeveOf?: string;
}
/** Where the collector stands; clocking in degrees. */
export interface PlainPose {
  readonly at: V;
  readonly flow: V;
  readonly clocking: number;
}
export interface PlainJob {
  readonly od: number;
  readonly starts: readonly PlainStart[];
  readonly limits: {
    readonly stub: number;
    readonly between: number;
    readonly last: number;
    readonly leastAngle: number;
    readonly largestAngle: number;
    readonly window: readonly [number, number];
  };
  readonly clear: { readonly tubes: number; readonly nearSlots: number };
  /** The job's own pose; a clocking left free is undefined. */
  readonly collector: { readonly at: V; readonly flow: V; readonly clocking: number | undefined };
  readonly mayMove: { readonly along: number; readonly across: number; readonly tilt: number };
  slotsAt(pose: PlainPose): readonly PlainSlot[];
  bodiesAt(pose: PlainPose): readonly PlainBody[];
  /** Whether primaries (by their slots' numbers, from 0) may be joined so. */
  orderAllowed(slots: readonly number[]): boolean;
}

const place = (p: Place): V => ('right' in p ? [p.right, p.up, p.out] : p);
/** unit(out - tan d up + tan r right) */
const leaving = ({ down = 0, right = 0 }: Tilt = {}): V =>
  unit([Math.tan(right * rad), -Math.tan(down * rad), 1]);
/** `first` made square to the flow; `instead` within 8 degrees of it, either way. */
export const zeroOf = (flow: V, first: V, instead: V): V =>
  squared(Math.hypot(...cross(flow, first)) < Math.sin(8 * rad) ? instead : first, flow);

/** Room of a socket by thread: the table's envelope and 3 mm more; how far it reaches is common practice. */
const socketRoom = { M6: 20, M8: 25, M10: 30 };
const SOCKET_REACH = 110;

export function plainRouteJob(text: string): PlainJob {
  const job = parse(text) as Written;
  const { od, wall } = job.tube;
  const c = job.collector;
  const slips = c.joint === 'slip';
  const { depth, gap } = c.slip ?? { depth: 45, gap: 0.4 };
  const sleeveWall = Math.max(wall, 1.6);
  const sleeve = od + gap + 2 * sleeveWall;
  const thickness = job.flange?.thickness ?? 0;
  const ports =
    job.ports.each ??
    Array.from({ length: job.ports.row?.count ?? 0 }, (_, i) => ({
      at: [(job.ports.row?.first === 'right' ? -1 : 1) * i * (job.ports.row?.pitch ?? 0), 0, 0] as V,
    }));
  const starts = ports.map((port: NonNullable<Written['ports']['each']>[number], i): PlainStart => {
    const flow = port.direction ? unit(port.direction) : leaving(port.leaving ?? job.ports.leaving);
    const normal = unit(port.face?.normal ?? out);
    const at = plus(port.at, normal, thickness);
    return { id: `P${i + 1}`, at, flow, reference: zeroOf(flow, up, out) };
  });
  const count = starts.length;
  const r =
    count < 2
      ? 0
      : (od + (c.slot_gap ?? (slips ? gap + 2 * sleeveWall + 1 : 4))) / (2 * Math.sin(Math.PI / count));
  const flow: V =
    'down' in c.flow
      ? [
          Math.cos(c.flow.down * rad) * Math.sin(c.flow.heading * rad),
          -Math.sin(c.flow.down * rad),
          Math.cos(c.flow.down * rad) * Math.cos(c.flow.heading * rad),
        ]
      : unit(place(c.flow));
  const slotsAt = (pose: PlainPose): PlainSlot[] => {
    const zero = zeroOf(pose.flow, out, up);
    const across = cross(pose.flow, zero);
    return starts.map((_, i) => {
      const turn = (pose.clocking + (360 * i) / count) * rad;
      const side = plus(plus([0, 0, 0], zero, Math.cos(turn)), across, Math.sin(turn));
      const lean = slips || count < 2 ? 0 : c.half_angle * rad;
      const direction = plus(plus([0, 0, 0], pose.flow, Math.cos(lean)), side, -Math.sin(lean));
      return { id: `S${i + 1}`, at: plus(pose.at, side, r), flow: direction };
    });
  };
  const plain = { headOf: [] as string[], ofCollector: false };
  const still: PlainBody[] = job.keep_outs.map((k) => ({ ...plain, ...k, headOf: k.head_of ?? [], body: k }));
  for (const port of ports)
    for (const [right, high] of job.studs?.beside_each_port ?? []) {
      const from = plus(plus(port.at, [right, high, 0]), out, thickness);
      const diameter = socketRoom[job.studs?.thread ?? 'M8'];
      const cylinder = { from, to: plus(from, out, SOCKET_REACH), diameter };
      still.push({ ...plain, name: 'wrench space', clear: 0, body: { cylinder } });
    }
  const bodiesAt = (pose: PlainPose): PlainBody[] => {
    const diameter = c.body.diameter ?? 2 * r + (slips ? sleeve : od);
    const cylinder = { from: pose.at, to: plus(pose.at, pose.flow, c.body.length), diameter };
    const sleeves = slotsAt(pose).map((slot): PlainBody => ({
      ...plain,
      name: `sleeve ${slot.id}`,
      clear: 1,
      ofCollector: true,
      sleeveOf: slot.id,
      body: { cylinder: { from: plus(slot.at, slot.flow, -depth), to: slot.at, diameter: sleeve } },
    }));
    const collector = {
      ...plain,
      name: 'collector',
      clear: c.body.clear,
      ofCollector: true,
      body: { cylinder },
    };
    return [...still, collector, ...(slips ? sleeves : [])];
  };
  const orderAllowed = (slots: readonly number[]): boolean => {
    if (c.slots === 'shortest') return true;
    if (c.slots !== 'firing') return slots.every((slot, i) => c.slots[i] === `S${slot + 1}`);
    const ring = (job.engine?.firing_order ?? []).map((cylinder) => slots[cylinder - 1] ?? NaN);
    const steps = ring.map((slot, i) => ((ring[(i + 1) % count] ?? NaN) - slot + count) % count);
    return steps.every((step) => step === 1) || steps.every((step) => step === count - 1);
  };
  const { stub, between, last_straight, least_angle, largest_angle } = job.primaries;
  const { target = NaN } = job.length;
  return {
    od,
    starts,
    limits: {
      stub,
      between,
      last: last_straight ?? (slips ? depth + 15 : 25),
      leastAngle: least_angle,
      largestAngle: largest_angle,
      window: job.length.between ?? [target, target],
    },
    clear: { tubes: job.clear.tube_to_tube, nearSlots: job.clear.near_slots },
    collector: { at: place(c.at), flow, clocking: c.clocking },
    mayMove: { along: 0, across: 0, tilt: 0, ...c.may_move },
    slotsAt,
    bodiesAt,
    orderAllowed,
  };
}

/**
 * How far along its primary a body is waived (mm): its own head until the port's axis first clears it, and at
 * least over the stub; NaN where the axis does not clear it within 80 mm. Other bodies are not waived: 0.
 */
export function waivedUntil(
  job: PlainJob,
  { id, at, flow }: PlainStart,
  { headOf, body, clear }: PlainBody,
): number {
  if (!headOf.includes(id)) return 0;
  for (let s = 0; s <= 80; s += 0.01)
    if (toBody(body, plus(at, flow, s)) - job.od / 2 - clear >= 0) return Math.max(s, job.limits.stub);
  return NaN;
}

/** How far a pose has been moved from the job's own: along and across its flow (mm), and tilted (degrees). */
export function movedBy(
  { collector }: PlainJob,
  pose: PlainPose,
): { along: number; across: number; tilt: number } {
  const shift = plus(pose.at, collector.at, -1);
  const along = dot(shift, collector.flow);
  return {
    along: Math.abs(along),
    across: far(shift, plus([0, 0, 0], collector.flow, along)),
    tilt: Math.atan2(Math.hypot(...cross(pose.flow, collector.flow)), dot(pose.flow, collector.flow)) / rad,
  };
}
