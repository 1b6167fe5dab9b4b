import { degrees } from '../../src/base/numbers.js';
import type { Random } from '../../src/base/random.js';
import { cheapestStock, type Effort } from '../../src/design/pieces/cheapest-stock.js';
import { chooseStock, type ChosenStock } from '../../src/design/pieces/choose-stock.js';
import type { CutList } from '../../src/design/pieces/cut-list.js';
import { fewestWeldsOf } from '../../src/design/pieces/fewest-welds.js';
import { layOut } from '../../src/design/pieces/lay-out.js';
import type { Solve } from '../../src/design/pieces/linear-program.js';
import type { PrimaryToCut } from '../../src/design/pieces/primary.js';
import { cutListRecord } from '../../src/design/pieces/record.js';
import { cuttingRules } from '../../src/design/pieces/rules.js';
import { waysWithin } from '../../src/design/pieces/ways.js';
import type { Rack } from '../../src/job/rack.js';
import { complaintsAbout, type Record_, type RouteToMatch } from './check-cut-list.js';
import { markComplaints } from './check-marks.js';
import { leftoverComplaints, rackComplaints, weldComplaints } from './check-stock.js';
import { far, march, unit, type Row, type V } from './plain-march.js';
import { wideRack, wideTube } from './random-cutting.js';

/** A random header planned by the planner, and its routes to hold it against. */
export interface RandomPlan {
  readonly rack: Rack;
  readonly primaries: readonly PrimaryToCut[];
  readonly routes: readonly RouteToMatch[];
  readonly list: CutList;
  readonly record: Record_;
}

/** The record as it stands in the file: through JSON and back. */
export const recordOf = (list: CutList): Record_ =>
  JSON.parse(JSON.stringify(cutListRecord(list))) as Record_;

/** How hard random plans are looked for: little, as they need not be the best. */
const BRIEF: Effort = { cuts: 3000, cutsAtOnce: 300, nodes: 20, seconds: 10 };

/** Draws one; undefined where it cannot be made from its rack. `solve` for a plan by the solver. */
export function randomPlan(random: Random, solve: Solve | undefined, moreWelds = 0): RandomPlan | undefined {
  const rack = wideRack(random);
  const rules = cuttingRules(rack);
  const any = (): V => unit([random.between(-1, 1), random.between(-1, 1), random.between(-1, 1)]);
  const tubes = Array.from({ length: random.whole(1, solve ? 2 : 4) }, () =>
    wideTube(random, rack, random.whole(0, solve ? 3 : 4)),
  )
    .filter((one) => one.rows.some((row) => !('straight' in row) || row.straight > 0))
    .filter((one) => fewestWeldsOf({ ...one, id: '', path: '', slip: 0 }, rules) || random.chance(0.05));
  if (tubes.length === 0) return undefined;
  const primaries = tubes.map((tube, i): PrimaryToCut => {
    return { ...tube, id: `P${i + 1}`, path: `primaries.by_hand.P${i + 1}`, slip: 0 };
  });
  const chosen =
    moreWelds > 0 && solve
      ? withMore(primaries, rack, solve, moreWelds)
      : chooseStock(primaries, rules, solve, BRIEF).chosen;
  if (!chosen) return undefined;
  const collectorWeld = random.chance(0.3);
  const list = layOut(chosen, rules, rack.tube, (id) => {
    const { lean, rows } = tubes[primaries.findIndex((one) => one.id === id)] ?? {};
    const toward = random.between(0, 6.28);
    return { face: lean && rows ? { lean, toward } : undefined, collectorWeld };
  });
  const routes = primaries.map(({ id, rows }): RouteToMatch => {
    const inDegrees = rows.map((row): Row =>
      'straight' in row ? row : { clr: row.clr, angle: degrees(row.angle), clock: degrees(row.clock) },
    );
    const start = [random.between(-300, 300), 0, 10] as const;
    return { id, start, direction: any(), reference: any(), rows: inDegrees };
  });
  return { rack, primaries, routes, list, record: recordOf(list) };
}

/** The cheapest plan with some welds more than the fewest. */
function withMore(
  primaries: readonly PrimaryToCut[],
  rack: Rack,
  solve: Solve,
  more: number,
): ChosenStock | undefined {
  const rules = cuttingRules(rack);
  const least = primaries.flatMap((primary) => fewestWeldsOf(primary, rules) ?? []);
  if (least.length < primaries.length) return undefined;
  const ways = least.map((one) => waysWithin(one.ways, one.welds + more));
  const welds = least.reduce((sum, one) => sum + one.welds, more);
  const { plan, bound, proved } = cheapestStock(ways, rules, solve, welds, BRIEF);
  const made = plan?.ways.flat().reduce((sum, { pieces }) => sum + pieces, 0) ?? 0;
  return plan && { primaries: ways, plan, welds: made, bound, proved };
}

/** All that two validators and a march of the pieces as they lie in their stock have to say about a plan. */
export function complaintsAboutPlan({ rack, primaries, routes, list, record }: RandomPlan): string[] {
  const { od } = rack.tube;
  const { cost, bound, proved } = record.totals;
  return [
    ...complaintsAbout(record, od, routes),
    ...rackComplaints(record, rack),
    ...leftoverComplaints(record, od),
    ...weldComplaints(record, primaries.map(placesOf)),
    ...markComplaints(list),
    ...endComplaints(record, primaries),
    ...routes.flatMap((route) => turnedComplaints(record, route)),
    ...(bound !== null && bound > cost + 1e-6 ? [`bound ${bound} over cost ${cost}`] : []),
    ...(proved && bound !== cost ? [`proved at ${cost}, bound ${bound}`] : []),
  ];
}

export const placesOf = ({ id, rows, noWeld }: PrimaryToCut) => {
  let at = 0;
  const arcs = rows.flatMap((row): [number, number][] => {
    const from = at;
    at += 'straight' in row ? row.straight : row.clr * row.angle;
    return 'straight' in row ? [] : [[from, at]];
  });
  return { id, arcs, noWeld };
};

/** What the first piece has to have for its flange, and no other piece. */
const endComplaints = (record: Record_, primaries: readonly PrimaryToCut[]): string[] =>
  primaries.flatMap(({ id, intoFlange, oblique }) =>
    record.pieces
      .filter(({ primary }) => primary === id)
      .flatMap(({ id: name, into_flange: into = 0, face }, i) => {
        const drop = face ? (42.4 / 2) * Math.tan((face.lean * Math.PI) / 180) : 0;
        const due = i === 0 ? [intoFlange, oblique] : [0, 0];
        const good = Math.abs(into - (due[0] ?? 0)) < 1e-6 && Math.abs(drop - (due[1] ?? 0)) < 1e-6;
        return good ? [] : [`${name}: ${into} into the flange, ${drop} oblique`];
      }),
  );

/** A bend piece as it lies in its stock from A to B, turned end for end where the gas runs from B to A. */
export function asItComes(piece: Record_['pieces'][number]): Row[] {
  const [from, to] = piece.arc_from_tangent;
  const arc: Row = { clr: piece.clr, angle: to - from, clock: piece.clock };
  if (piece.end === 'whole') {
    const [a, b] = piece.reversed ? [piece.leg_down, piece.leg_up] : [piece.leg_up, piece.leg_down];
    const fromA: Row[] = [{ straight: a }, arc, { straight: b }];
    return piece.reversed ? fromA.reverse() : fromA;
  }
  const leg = Math.max(piece.leg_up, piece.leg_down);
  const fromA: Row[] = [
    { straight: piece.end === 'A' ? leg : 0 },
    arc,
    { straight: piece.end === 'B' ? leg : 0 },
  ];
  return piece.reversed ? fromA.reverse() : fromA;
}

/** The pieces as they come off their stock, turned and welded up through their clockings: where they end. */
function turnedComplaints(record: Record_, route: RouteToMatch): string[] {
  const pieces = record.pieces.filter(({ primary }) => primary === route.id);
  const rows = pieces.flatMap((p): Row[] =>
    p.kind === 'straight' ? [{ straight: p.length }] : asItComes(p),
  );
  const into = pieces[0]?.into_flange ?? 0;
  const made = march(route.start, route.direction, route.reference, [{ straight: -into }, ...rows], 50);
  const asked = march(route.start, route.direction, route.reference, route.rows, 50);
  const off = far(made.end.at, asked.end.at);
  return off < 1e-6 ? [] : [`${route.id}: as it comes off the stock it ends ${off} mm off`];
}
