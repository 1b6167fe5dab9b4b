import { beforeAll, describe, expect, it } from 'vitest';
import { randomFrom, type Random } from '../../../src/base/random.js';
import { openSolver } from '../../../src/build/solver.js';
import type { Effort } from '../../../src/design/pieces/cheapest-stock.js';
import { chooseStock } from '../../../src/design/pieces/choose-stock.js';
import { fewestWeldsOf } from '../../../src/design/pieces/fewest-welds.js';
import type { Solve } from '../../../src/design/pieces/linear-program.js';
import type { PrimaryToCut } from '../../../src/design/pieces/primary.js';
import { cuttingRules } from '../../../src/design/pieces/rules.js';
import { stockByWelds } from '../../../src/design/pieces/weld-price.js';
import { weldCounter } from '../../../src/design/pieces/weld-counter.js';
import type { Rack } from '../../../src/job/rack.js';
import { everyWayToCut, type Tube } from '../../support/plan-by-trying.js';
import { wideRack, wideTube } from '../../support/random-cutting.js';
import { leastCost } from '../../support/saw-by-trying.js';

let solve: Solve;
beforeAll(async () => {
  solve = await openSolver();
});

/** Numbers of random jobs: more of them by hand, as `JOBS=10 SEED=2 npx vitest ...`. */
const jobs = (usual: number): number => Math.ceil(usual * Number(process.env.JOBS ?? 1));
const seed = (usual: number): number => usual + 1000 * Number(process.env.SEED ?? 0);

const toCut = (tube: Tube, i: number): PrimaryToCut => {
  return { ...tube, id: `P${i + 1}`, path: `P${i + 1}`, slip: 0 };
};

const say = (rack: Rack, tubes: readonly Tube[]): string =>
  JSON.stringify({ bends: rack.bends, straights: rack.straights, saw: rack.saw, tubes });

describe('against a trial of everything that shares nothing with the planner', () => {
  it('fewest welds of 600 random tubes, and the quick count where welds may stand anywhere', () => {
    const random = randomFrom(seed(301));
    const seen = new Map<number, number>();
    for (let i = 0; i < jobs(600); i++) {
      const rack = wideRack(random);
      const tube = wideTube(random, rack, random.whole(0, 4));
      const { welds } = everyWayToCut(tube, rack, 0);
      const label = `case ${i}: ${say(rack, [tube])}`;
      const rules = cuttingRules(rack);
      expect(fewestWeldsOf(toCut(tube, 0), rules)?.welds ?? Infinity, label).toBe(welds);
      seen.set(welds, (seen.get(welds) ?? 0) + 1);
      if (tube.noWeld.length > 0) continue;
      const straights = tube.rows.flatMap((row) => ('straight' in row ? [row.straight] : []));
      const bends = tube.rows.flatMap((row) => ('straight' in row ? [] : [row]));
      const count = weldCounter(rules, tube)(
        straights,
        bends.map(({ clr }) => clr),
        bends.map(({ angle }) => angle),
        bends.map(({ clock }) => clock),
      );
      expect(count, `quick, ${label}`).toBe(welds);
    }
    if (process.env.SHOW_TIMES) console.log([...seen]);
    for (const welds of [1, 2, 3, 4, 5, 6, Infinity])
      expect(seen.get(welds) ?? 0, `${welds}`).toBeGreaterThan(8);
  });

  it('welds and cost of 100 random headers: exactly the same', () => {
    const random = randomFrom(seed(302));
    const seen = { same: 0, refused: 0, moreWelds: 0, unproved: 0, several: 0, large: 0 };
    for (let i = 0; i < jobs(100); i++) {
      const rack = wideRack(random);
      const tubes = header(random, rack, 3, 2);
      const label = `case ${i}: ${say(rack, tubes)}`;
      const { chosen, problems } = chooseStock(tubes.map(toCut), cuttingRules(rack), solve, BRIEF);
      const fewest = tubes.reduce((sum, tube) => sum + everyWayToCut(tube, rack, 0).welds, 0);
      const trial = new Trial(tubes, rack, fewest);
      if (!chosen) {
        seen.refused++;
        expect(problems[0]?.severity, label).toBe('error');
        if (fewest === Infinity) continue;
        expect(problems[0]?.code, label).toBe('pieces/stock-used-up');
        const found = trial.cheapest(1, Infinity);
        if (trial.tried()) expect(found, `refused, ${label}`).toBe(Infinity);
        continue;
      }
      const { welds, bound, proved, plan } = chosen;
      expect(bound, label).toBeLessThanOrEqual(plan.cost + 1e-6);
      const fewer = welds > fewest ? trial.cheapest(welds - fewest - 1, Infinity) : Infinity;
      // Begun a little above what the planner found, so that the trial has to find such a plan by itself.
      const found = trial.cheapest(welds - fewest, plan.cost + 0.01);
      if (!trial.tried()) {
        if (trial.several) seen.several++;
        else seen.large++;
        continue;
      }
      if (proved) {
        seen.same++;
        expect(found, label).toBeCloseTo(plan.cost, 6);
        expect(bound, label).toBeCloseTo(plan.cost, 6);
        // The same where cuts are taken in by their worth, as in larger jobs.
        const effort = { ...BRIEF, cutsAtOnce: 0 };
        const other =
          i % 3 === 0 ? chooseStock(tubes.map(toCut), cuttingRules(rack), solve, effort) : undefined;
        if (other?.chosen?.proved) expect(other.chosen.plan.cost, `by worth, ${label}`).toBeCloseTo(found, 6);
      } else {
        // What is not proved tells a gap, and the truth lies in it.
        seen.unproved++;
        expect(found, label).toBeGreaterThanOrEqual((bound ?? NaN) - 1e-6);
        expect(found, label).toBeLessThanOrEqual(plan.cost + 1e-6);
      }
      expect(fewer, `fewer welds, ${label}`).toBe(Infinity);
      if (welds > fewest) seen.moreWelds++;
    }
    if (process.env.SHOW_TIMES) console.log(seen);
    expect(seen.same).toBeGreaterThan(jobs(60));
    expect(seen.unproved).toBeLessThan(jobs(10));
    expect(seen.moreWelds).toBeGreaterThan(0);
  });

  it('30 random headers with one weld more: what it saves, exactly', () => {
    const random = randomFrom(seed(303));
    let [same, cheaper] = [0, 0];
    for (let i = 0; i < jobs(30); i++) {
      const rack = wideRack(random);
      const tubes = header(random, rack, 2, 2);
      const label = `case ${i}: ${say(rack, tubes)}`;
      const fewest = tubes.reduce((sum, tube) => sum + everyWayToCut(tube, rack, 0).welds, 0);
      const found = stockByWelds(tubes.map(toCut), cuttingRules(rack), solve, 1, BRIEF);
      if (fewest === Infinity) {
        expect(found, label).toEqual([]);
        continue;
      }
      const trial = new Trial(tubes, rack, fewest);
      for (const more of [0, 1]) {
        const { cost = NaN, proved } = found[more] ?? {};
        const expected = trial.cheapest(more, cost + 0.01);
        if (!trial.tried() || !proved) continue;
        same++;
        // Where the rack has not enough, either way nothing is found.
        if (cost < Infinity) expect(expected, `${more} more, ${label}`).toBeCloseTo(cost, 6);
        else expect(expected, `${more} more, ${label}`).toBe(Infinity);
      }
      if ((found[1]?.cost ?? 0) < (found[0]?.cost ?? 0) - 1e-6) cheaper++;
    }
    if (process.env.SHOW_TIMES) console.log({ same, cheaper });
    expect(same).toBeGreaterThan(jobs(30));
    expect(cheaper).toBeGreaterThan(0);
  });
});

/** Little, so that what is hard is left unproved: the trial of everything then looks whether the gap holds. */
const BRIEF: Effort = { cuts: 5000, cutsAtOnce: 1200, nodes: 300, seconds: 5 };

/** Everything tried for one header, as long as it is small enough. */
class Trial {
  private readonly patience = { left: 200_000 };
  several = false;
  private large = false;
  constructor(
    private readonly tubes: readonly Tube[],
    private readonly rack: Rack,
    private readonly fewest: number,
  ) {}

  /** The least cost with so many welds more than the fewest, if it is less than `below`. */
  cheapest(more: number, below: number): number {
    const ways = this.tubes.map(
      (tube) => everyWayToCut(tube, this.rack, everyWayToCut(tube, this.rack, 0).welds + more).ways,
    );
    this.several ||= ways.flat().some(({ several }) => several);
    this.large ||= ways.reduce((product, list) => product * list.length, 1) > 3000;
    if (!this.tried()) return NaN;
    return leastCost(ways, this.rack, below, this.fewest + more, this.patience);
  }

  tried(): boolean {
    return !this.several && !this.large && this.patience.left > 0;
  }
}

const header = (random: Random, rack: Rack, mostTubes: number, mostBends: number): Tube[] => {
  const tubes: Tube[] = [];
  const count = random.whole(1, mostTubes);
  for (let tries = 0; tubes.length < count && tries < 20; tries++) {
    const tube = wideTube(random, rack, random.whole(0, mostBends));
    // Most headers are to be such as can be made.
    if (everyWayToCut(tube, rack, 0).welds < Infinity || random.chance(0.02)) tubes.push(tube);
  }
  return tubes;
};
