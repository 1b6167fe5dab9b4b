import { describe, expect, it } from 'vitest';
import { randomFrom } from '../../../src/base/random.js';
import { distance3, type Vector } from '../../../src/base/vectors.js';
import { leastSpareBetween } from '../../../src/geom/line-to-line.js';
import { lengthThrough } from '../../../src/geom/length-through.js';
import { straightOf } from '../../../src/geom/packed-line.js';
import { setProblem } from '../../../src/design/route/index.js';
import { leastAssignment, leastAssignmentWith } from '../../../src/design/route/assign.js';
import { armReach } from '../../../src/design/route/arm-reach.js';
import { lineThrough, type Candidate, type Way } from '../../../src/design/route/candidate.js';
import { chooseFewestWelds } from '../../../src/design/route/choose.js';
import { libraryAt } from '../../../src/design/route/library.js';
import { findMoreBends } from '../../../src/design/route/more-bends.js';
import { toLength } from '../../../src/design/route/to-length.js';
import { findTwoBends } from '../../../src/design/route/two-bends.js';
import { packWays, readWay, roomAt, wayAt } from '../../../src/design/route/ways.js';
import { leastWayRound } from '../../../src/design/route/way-round.js';
import { routingCase } from '../../support/routing-cases.js';

const { job, rack } = routingCase('i4-easy');
const problem = setProblem(job, rack);

const permutations = (n: number): number[][] =>
  n === 0
    ? [[]]
    : permutations(n - 1).flatMap((rest) =>
        Array.from({ length: n }, (_, at) => [...rest.slice(0, at), n - 1, ...rest.slice(at)]),
      );

/** Routes of all kinds for a port and slot. */
function routesFor(start: number, slot: number): Way[] {
  const routes: Way[] = [];
  const keep = (route: Way) => void routes.push(route);
  const always = () => true;
  findTwoBends(problem, start, slot, armReach(problem, start, slot), { pitch: 20, phase: 0 }, always, keep);
  for (const bends of [3, 4])
    findMoreBends(problem, start, slot, { bends, tries: 400, seed: 5, enough: 500 }, always, keep);
  return routes;
}
const some = routesFor(1, 2);

describe('parts of the search', () => {
  it('routes found run from port to slot along both axes, in k + 1 to k + max(1, straights over a leg) welds', () => {
    expect(new Set(some.map((route) => route.clrs.length))).toEqual(new Set([2, 3, 4]));
    const from = problem.starts[1];
    const to = problem.slots[2];
    if (!from || !to) throw new Error('no such port or slot');
    for (const { points, clrs, welds } of some) {
      const bends = clrs.length;
      const line = lineThrough(points, clrs, bends);
      const at = (m: number): Vector => [points[3 * m] ?? 0, points[3 * m + 1] ?? 0, points[3 * m + 2] ?? 0];
      const arm = distance3(at(1), from.at);
      expect(
        distance3(at(1), from.at.map((x, i) => x + arm * (from.direction[i] ?? 0)) as unknown as Vector),
      ).toBeLessThan(1e-9);
      const back = distance3(at(bends), to.at);
      expect(
        distance3(at(bends), to.at.map((x, i) => x - back * (to.direction[i] ?? 0)) as unknown as Vector),
      ).toBeLessThan(1e-9);
      const straights = Array.from({ length: bends + 1 }, (_, i) => straightOf(line, i));
      expect(welds).toBeGreaterThanOrEqual(bends + 1);
      // Two legs may also meet in a long straight, so the closed rule is only the most.
      const most = bends + Math.max(1, straights.filter((straight) => straight > 100).length);
      expect(welds).toBeLessThanOrEqual(most);
      if (bends === 2) expect(welds).toBeGreaterThanOrEqual(most - 1);
    }
  });

  it('ways packed into one array come out of it as they went in', () => {
    const packed = packWays(some);
    const points = new Float64Array(24);
    let o = 0;
    for (const route of some) {
      expect(wayAt(packed, o, route.start, route.slot)).toEqual(route);
      expect(readWay(packed, o, points)).toEqual(route.clrs);
      expect(points.slice(0, route.points.length)).toEqual(route.points);
      o += roomAt(packed, o);
    }
    expect(o).toBe(packed.length);
  });

  it('brought to a length, a route has it to 1e-7 mm and still ends where it did', () => {
    let brought = 0;
    for (const route of some.slice(0, 300)) {
      const points = route.points.slice();
      const asked = route.length + 7;
      if (!toLength(problem, route.start, route.slot, points, route.clrs, asked)) continue;
      brought++;
      expect(Math.abs(lengthThrough(points, route.clrs, route.clrs.length) - asked)).toBeLessThan(1e-7);
      expect([...points.slice(0, 3), ...points.slice(-3)]).toEqual([
        ...route.points.slice(0, 3),
        ...route.points.slice(-3),
      ]);
    }
    expect(brought).toBeGreaterThan(250);
  });

  it('least assignment against all orders of 1 to 6 rows', () => {
    const random = randomFrom(51);
    for (let i = 0; i < 60; i++) {
      const n = random.whole(1, 6);
      const cost = Array.from({ length: n }, () =>
        Array.from({ length: n }, () => (random.chance(0.2) ? Infinity : random.whole(3, 7))),
      );
      const all = permutations(n);
      const sum = (order: number[]) =>
        order.reduce((s, column, row) => s + (cost[row]?.[column] ?? Infinity), 0);
      expect(leastAssignment(cost)).toBe(Math.min(...all.map(sum)));
      const some = all.slice(0, 3);
      expect(leastAssignment(cost, some)).toBe(Math.min(...some.map(sum)));
      const held = Math.min(...all.filter((order) => order[0] === n - 1).map(sum));
      expect(leastAssignmentWith(cost, 0, n - 1)).toBe(held);
    }
  });

  it('choice of the fewest welds, overlaps of 12 mm let pass, against every choice there is in a small library', () => {
    const length = 760;
    const offered = problem.starts.map((_, i) =>
      problem.slots.flatMap((_, j) =>
        libraryAt(problem, {
          start: i,
          slot: j,
          length,
          pool: packWays(routesFor(i, j)),
          window: 20,
          keep: 2,
          fewest: 3,
          wanted: { aim: 99, best: undefined, rest: { from: 0, width: 1, welds: [0] } },
        }).slice(0, 4),
      ),
    );
    let least = Infinity;
    const clear = (a: Candidate, b: Candidate) =>
      leastSpareBetween(a.line, b.line, problem.apart, { floor: 2, stop: -12, cap: -12 }) >= -12;
    const go = (chosen: Candidate[], welds: number): void => {
      if (chosen.length === offered.length) return void (least = Math.min(least, welds));
      for (const route of offered[chosen.length] ?? [])
        if (chosen.every((other) => other.slot !== route.slot && clear(other, route)))
          go([...chosen, route], welds + route.welds);
    };
    go([], 0);
    const { sets } = chooseFewestWelds(problem, offered, { under: Infinity, spare: -12, nodes: 1e6 });
    expect(least).toBeLessThan(Infinity);
    expect(sets[0]?.reduce((sum, route) => sum + route.welds, 0)).toBe(least);
    expect(new Set(sets[0]?.map((route) => route.slot)).size).toBe(4);
  });

  it('least way round a box: never longer than ways found by brute force, and close to a worked one', () => {
    const box = { from: [-100, -10, -300], to: [100, 10, 300] } as const;
    // Straight across the middle: over the edge at x = 100 + 20 / sqrt 2, 100 before it and 100 after it.
    const edge = 100 + 20 / Math.SQRT2;
    expect(leastWayRound([0, -100, 0], [0, 100, 0], box, 20)).toBeCloseTo(2 * Math.hypot(edge, 100), 9);
    const random = randomFrom(52);
    for (let i = 0; i < 50; i++) {
      const a: Vector = [random.between(-150, 150), random.between(-200, -40), random.between(-200, 200)];
      const b: Vector = [random.between(-150, 150), random.between(40, 200), random.between(-200, 200)];
      let shortest = Infinity;
      // Ways of two straights that keep 20 mm from the box's section half way through it.
      for (let t = 0; t < 4000; t++) {
        const m: Vector = [random.between(-220, 220), 0, random.between(-420, 420)];
        const off = Math.hypot(Math.max(0, Math.abs(m[0]) - 100), Math.max(0, Math.abs(m[2]) - 300));
        if (off >= 20) shortest = Math.min(shortest, distance3(a, m) + distance3(m, b));
      }
      expect(leastWayRound(a, b, box, 20)).toBeLessThan(shortest + 1e-9);
    }
  });
});
