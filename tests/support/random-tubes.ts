import { radians } from '../../src/base/numbers.js';
import type { Random } from '../../src/base/random.js';
import { centreLineOf } from '../../src/geom/centre-line.js';
import { intersectionPointsOf } from '../../src/geom/intersection-points.js';
import { cuttingRules } from '../../src/design/pieces/rules.js';
import { weldCounter } from '../../src/design/pieces/weld-counter.js';
import { candidateFrom, type Candidate } from '../../src/design/route/candidate.js';
import { surroundingsFor, type Obstacle } from '../../src/design/route/obstacles.js';
import type { RouteProblem } from '../../src/design/route/problem.js';
import type { Rack } from '../../src/job/rack.js';
import { march, toBody, unit, type Body, type Marched, type Row, type V } from './plain-march.js';

/** A tube drawn at random, with a rod held near it, as a routing problem of one primary and its exact answer. */
export interface RandomTube {
  readonly problem: RouteProblem;
  readonly route: Candidate;
  readonly rows: readonly Row[];
  readonly start: { readonly at: V; readonly flow: V; readonly reference: V };
  readonly slot: { readonly at: V; readonly flow: V };
  readonly rod: Body;
  /** From the rod's surface to the tube's: as asked, 1 mm less than the exact tube has. */
  readonly clear: number;
}

export const OD = 42.4;
export const LIMITS = { stub: 20, between: 5, lastStraight: 45, leastAngle: 5, largestAngle: 150 };

/** The march of rows (mm, degrees) from the tube's start. */
export const marchOf = ({ start }: RandomTube, rows: readonly Row[], step: number): Marched =>
  march(start.at, start.flow, start.reference, rows, step);

/** Draws one; `flat` draws a tube that lies in one plane. Undefined where it would run into its own rod. */
export function randomTube(
  random: Random,
  rack: Rack,
  bends: number,
  spread: number,
  flat = false,
): RandomTube | undefined {
  const any = (): V => unit([random.between(-1, 1), random.between(-1, 1), random.between(-1, 1)]);
  const start = { at: [random.between(-200, 200), 0, 0] as V, flow: any(), reference: any() };
  const rows: Row[] = [{ straight: random.between(21, 120) }];
  for (let i = 0; i < bends; i++) {
    const clock = flat && i > 0 ? random.pick([0, 180]) : random.between(0, 360);
    rows.push({ clr: random.pick(rack.bends).clr, angle: random.between(15, 130), clock });
    rows.push({ straight: i === bends - 1 ? random.between(46, 300) : random.between(10, 150) });
  }
  const line = march(start.at, start.flow, start.reference, rows, 1);
  const beside = random.pick(line.stations.slice(60, -60));
  const aside = unit([beside.flow[1], -beside.flow[0] + 0.1, 0.2]);
  const off = OD / 2 + random.between(15, 40);
  const from: V = [beside.p[0] + aside[0] * off, beside.p[1] + aside[1] * off, beside.p[2] + aside[2] * off];
  const along = any();
  const to: V = [from[0] + 80 * along[0], from[1] + 80 * along[1], from[2] + 80 * along[2]];
  const rod: Body = { capsule: { from, to, diameter: 10 } };
  const nearest = Math.min(...line.stations.map(({ p }) => toBody(rod, p))) - OD / 2;
  if (nearest < 2) return undefined;
  const clear = nearest - 1;
  const exact = centreLineOf(
    { at: start.at, direction: start.flow, clockReference: start.reference },
    rows.map((row) =>
      'straight' in row ? row : { clr: row.clr, angle: radians(row.angle), clock: radians(row.clock) },
    ),
  );
  const slot = { at: line.end.at, flow: line.end.flow };
  const obstacle: Obstacle = {
    name: 'rod',
    path: undefined,
    solid: { kind: 'capsule', from, to, diameter: 10 },
    clear,
    headOf: [],
    ofCollector: false,
    slot: undefined,
  };
  const problem: RouteProblem = {
    starts: [
      {
        id: 'P1',
        at: start.at,
        direction: start.flow,
        clockReference: start.reference,
        waiver: { until: 0, clearTo: Infinity, heads: [] },
        stub: LIMITS.stub,
        built: undefined,
        countWelds: weldCounter(cuttingRules(rack)),
      },
    ],
    slots: [{ id: 'S1', at: slot.at, direction: slot.flow }],
    kept: [undefined],
    orders: undefined,
    od: OD,
    stock: [],
    limits: {
      ...LIMITS,
      leastAngle: radians(LIMITS.leastAngle),
      largestAngle: radians(LIMITS.largestAngle),
      window: { from: line.length, to: line.length },
      spread,
      anglesLeftOut: false,
    },
    apart: { anywhere: OD + 6, nearEnds: OD + 4 },
    clearOfItself: 6,
    obstacles: [obstacle],
    surroundings: [
      [
        surroundingsFor({ id: 'P1', waiver: { until: 0, clearTo: Infinity, heads: [] } }, { id: 'S1' }, [
          obstacle,
        ]),
      ],
    ],
    collector: { at: slot.at, flow: slot.flow, clocking: 0 },
  };
  const { points, clrs } = intersectionPointsOf(exact);
  const route = candidateFrom(problem, { start: 0, slot: 0 }, Float64Array.from(points.flat()), clrs);
  return { problem, route, rows, start, slot, rod, clear };
}
