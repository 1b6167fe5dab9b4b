import { radians } from '../../base/numbers.js';
import type { Problem } from '../../base/problems.js';
import type { Vector } from '../../base/vectors.js';
import type { CollectorSpec, Job, Port } from '../../job/job.js';
import type { Rack } from '../../job/rack.js';
import { centreLineOf } from '../../geom/centre-line.js';
import { cuttingRules } from '../pieces/rules.js';
import { primariesToCut } from '../pieces/primaries-to-cut.js';
import { weldCounter, type AtFlange } from '../pieces/weld-counter.js';
import { collectorSlots } from '../collector-slots.js';
import { primaryStart } from '../routes-by-hand.js';
import type { WithParts } from './built.js';
import {
  builtObstacles,
  collectorBody,
  keepOutObstacles,
  sleeves,
  surroundingsFor,
  type FieldOf,
} from './obstacles.js';
import { keptPrimary } from './kept.js';
import type { RouteProblem, RouteStart } from './problem.js';
import { slotOrders } from './slot-orders.js';
import { bendStockOf } from './stock.js';
import { FURTHEST_WAIVER, waiverOf } from './waiver.js';
import { wrenchSpaces } from './wrench-space.js';

/** A job with what stands already of primaries that are built up to a weld, by primary. */
export type RoutedJob = Job & WithParts;

/** A job that has all that a router asks for. */
export type RoutableJob = RoutedJob & {
  readonly tube: NonNullable<Job['tube']>;
  readonly primaries: NonNullable<Job['primaries']>;
  readonly collector: CollectorSpec;
  readonly length: NonNullable<Job['length']>;
};

/** Whether a job has ports, tube, primaries, collector and length. */
export const isRoutable = (job: Job): job is RoutableJob =>
  job.ports.length > 0 &&
  job.tube !== undefined &&
  job.primaries !== undefined &&
  job.collector !== undefined &&
  job.length !== undefined;

/**
 * The search places bends by where their straights would meet, which runs away toward half a turn: beyond this
 * angle (rad) it makes none.
 */
const MOST_ANGLE = radians(170);

/** Where the collector stands, where it may move or turn: else the job's own pose. */
export interface CollectorPose {
  readonly at: Vector;
  readonly flow: Vector;
  readonly clocking: number;
}

/** Ports whose axis does not come clear of their own head: a fault of the job, told by the caller. */
export class HeadNotCleared extends RangeError {
  readonly ports: readonly string[];
  constructor(ports: readonly string[]) {
    super(`the axis of ${ports.join(', ')} does not clear its head within ${FURTHEST_WAIVER} mm`);
    this.ports = ports;
  }
}

/** What is told of ports whose axis stays in their own head. */
export const headNotCleared = (ports: readonly string[]): Problem => ({
  code: 'route/head-not-cleared',
  severity: 'error',
  what: `the axis of ${ports.join(', ')} does not come clear of its own head within ${FURTHEST_WAIVER} mm`,
  why: 'the tube would run inside the head',
  fix: "measure the port's direction again, or draw the head's box back to its face",
  place: { path: 'ports' },
});

/**
 * The routing problem of a job: starts at the flange's tube side, slots, obstacles with their clearances,
 * limits and stock, and the primaries given by hand, unless all are. A flange bolts the port's face to the tube, so no flange means starting at the face.
 * @param fieldOf gives the distance to keep-outs that are files
 * @param pose the collector's, where it is not the job's
 * @throws HeadNotCleared, and RangeError where a keep-out's field is missing
 */
export function setProblem(
  job: RoutableJob,
  rack: Rack,
  fieldOf: FieldOf = () => undefined,
  pose?: CollectorPose,
): RouteProblem {
  const { tube, primaries, ports, length, clear } = job;
  const collector: CollectorSpec = { ...job.collector, ...pose };
  const { slots, radius } = collectorSlots(collector, tube.od, ports.length);
  const obstacles = [
    ...keepOutObstacles(job.keepOuts, fieldOf, tube.od / 2),
    collectorBody(collector, radius, tube.od),
    ...sleeves(collector, slots, tube.od),
    ...wrenchSpaces(job),
    ...builtObstacles(job.builtParts ?? {}, tube.od, clear.tubeToTube),
  ];
  const rules = cuttingRules(rack);
  const buried: string[] = [];
  const starts = ports.map((port): RouteStart => {
    const built = job.builtParts?.[port.id];
    const start = { id: port.id, ...(built?.end ?? primaryStart(port, job.flange?.thickness ?? 0)) };
    // What is welded on goes on at once: the tail has no stub to keep.
    const atFlange = built === undefined ? cutAtFlange(job, port, primaries.stub) : undefined;
    // An arc must not begin inside an oblique cut.
    const stub = built === undefined ? Math.max(primaries.stub, atFlange?.oblique ?? 0) : 0;
    const waiver = waiverOf(start, obstacles, stub, tube.od / 2, length.to);
    if (waiver === undefined) buried.push(port.id);
    return {
      ...start,
      waiver: waiver ?? { until: FURTHEST_WAIVER, clearTo: Infinity, heads: [] },
      stub,
      built,
      countWelds: weldCounter(rules, atFlange),
    };
  });
  if (buried.length > 0) throw new HeadNotCleared(buried);
  const byHand = (id: string): boolean => primaries.byHand[id] !== undefined;
  // Where all are given by hand there is nothing to keep them for: then all are routed anew.
  const keep = ports.some(({ id }) => !byHand(id));
  const kept = starts.map((start) => {
    const rows = primaries.byHand[start.id];
    return keep && rows !== undefined ? keptPrimary(start, slots, rows) : undefined;
  });
  const lengths = kept.flatMap((one, i) =>
    one === undefined ? [] : [one.length + (starts[i]?.built?.length ?? 0)],
  );
  const mean = lengths.reduce((sum, one) => sum + one, 0) / lengths.length;
  return {
    starts,
    slots,
    kept,
    orders: slotOrders(collector.slots, ports.length, job.engine?.firingOrder),
    od: tube.od,
    stock: bendStockOf(rack),
    limits: {
      between: primaries.between,
      lastStraight: primaries.lastStraight,
      leastAngle: primaries.leastAngle,
      largestAngle: Math.min(primaries.largestAngle, MOST_ANGLE),
      anglesLeftOut: primaries.largestAngle > MOST_ANGLE,
      // What is kept sets the common length.
      window: lengths.length > 0 ? { from: mean, to: mean } : { from: length.from, to: length.to },
      spread: length.spread,
    },
    apart: { anywhere: tube.od + clear.tubeToTube, nearEnds: tube.od + clear.nearSlots },
    clearOfItself: clear.tubeToTube,
    obstacles,
    surroundings: starts.map((start) => slots.map((slot) => surroundingsFor(start, slot, obstacles))),
    collector: { at: collector.at, flow: collector.flow, clocking: collector.clocking ?? 0 },
  };
}

/**
 * What the cutter needs of a primary's tube before its start: in the flange, and for an oblique first cut.
 * A job without a flange says nothing of what the tube is butted on.
 */
function cutAtFlange(job: RoutableJob, port: Port, stub: number): AtFlange | undefined {
  if (job.flange === undefined) return undefined;
  const rows = [{ straight: stub }];
  const line = centreLineOf(primaryStart(port, job.flange?.thickness ?? 0), rows);
  return primariesToCut(job, [{ id: port.id, rows, line }])[0];
}
