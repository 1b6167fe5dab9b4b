// Stock for random headers on random racks: CPU time, cost, bound, gap, whether proved; first-fit-decreasing beside it.
import { cpus } from 'node:os';
import { radians } from '../../src/base/numbers.js';
import { randomFrom, type Random } from '../../src/base/random.js';
import { openSolver } from '../../src/build/solver.js';
import { cheapestStock, usualEffort } from '../../src/design/pieces/cheapest-stock.js';
import { fewestWeldsOf } from '../../src/design/pieces/fewest-welds.js';
import type { PrimaryToCut } from '../../src/design/pieces/primary.js';
import { cuttingRules } from '../../src/design/pieces/rules.js';
import { waysWithin } from '../../src/design/pieces/ways.js';
import type { CentreLineRow } from '../../src/geom/centre-line.js';
import type { Rack } from '../../src/job/rack.js';
import { firstFit } from '../support/first-fit.js';
import { rackOf } from '../support/trial-pieces.js';

const CLRS = [42.4, 63.6, 84.8];

/** One or two bends of each of three radii, with legs; dearer the longer they are. */
function someRack(random: Random): Rack {
  const bends = CLRS.flatMap((clr) =>
    Array.from({ length: random.whole(1, 2) }, (_, i) => {
      const angle = i === 0 ? 180 : random.pick([90, 120, 150]);
      const legs = [random.pick([60, 80, 100]), random.pick([60, 80, 100, 150])] as const;
      const price = (clr * radians(angle) + legs[0] + legs[1]) * 0.045 + random.between(0, 4);
      return { clr, angle: radians(angle), legs, price: Math.round(price * 20) / 20 };
    }),
  );
  return rackOf(bends, [{ length: 1000, price: random.whole(12, 20) }]);
}

function somePrimary(random: Random, bends: number, i: number): PrimaryToCut {
  const rows: CentreLineRow[] = [{ straight: random.whole(60, 200) / 2 }];
  for (let b = 0; b < bends; b++)
    rows.push(
      {
        clr: random.pick(CLRS),
        angle: radians(random.whole(40, 240) / 2),
        clock: radians(random.whole(1, 359)),
      },
      { straight: random.whole(50, b === bends - 1 ? 600 : 300) / 2 },
    );
  return { id: `P${i + 1}`, path: `P${i + 1}`, rows, noWeld: [], intoFlange: 0, oblique: 0, slip: 0 };
}

const cpu = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
};
const median = (list: readonly number[]): number => [...list].sort((a, b) => a - b)[list.length >> 1] ?? NaN;

const asked = Number(process.argv[2] ?? 10);
/** Branches that may be looked at: `pieces 4 0` shows what is told where they do not suffice. */
const effort = { ...usualEffort, nodes: Number(process.argv[3] ?? usualEffort.nodes) };
console.log(`node ${process.version}, ${cpus().length} x ${cpus()[0]?.model ?? 'unknown processor'}`);
const solve = await openSolver();
for (const primaries of [4, 8]) {
  console.log(`\n${primaries} primaries of 4 bends`);
  console.log('seed  welds     cost    bound   gap %  proved   CPU s   first fit  dearer %');
  const times: number[] = [];
  const dearer: number[] = [];
  let proofs = 0;
  for (let seed = 1; seed <= asked; seed++) {
    const random = randomFrom(1000 * primaries + seed);
    const rules = cuttingRules(someRack(random));
    const began = cpu();
    const least = Array.from({ length: primaries }, (_, i) => somePrimary(random, 4, i)).flatMap(
      (primary) => fewestWeldsOf(primary, rules) ?? [],
    );
    if (least.length < primaries) {
      console.log(`${String(seed).padStart(4)}  cannot be cut from its rack`);
      continue;
    }
    const ways = least.map((one) => waysWithin(one.ways, one.welds));
    const { plan, bound, proved } = cheapestStock(ways, rules, solve, undefined, effort);
    const seconds = cpu() - began;
    const cost = plan?.cost ?? NaN;
    const plainly = firstFit(ways, rules) ?? NaN;
    times.push(seconds);
    dearer.push(100 * (plainly / cost - 1));
    if (proved) proofs++;
    const welds = least.reduce((sum, one) => sum + one.welds, 0);
    const gap = proved ? 0 : 100 * (1 - bound / cost);
    console.log(
      [
        String(seed).padStart(4),
        String(welds).padStart(6),
        cost.toFixed(2).padStart(9),
        bound.toFixed(2).padStart(9),
        gap.toFixed(2).padStart(7),
        (proved ? 'yes' : 'no').padStart(7),
        seconds.toFixed(2).padStart(8),
        plainly.toFixed(2).padStart(11),
        (100 * (plainly / cost - 1)).toFixed(1).padStart(9),
      ].join(''),
    );
  }
  console.log(
    `${proofs} of ${times.length} proved; CPU median ${median(times).toFixed(2)} s, most ${Math.max(...times).toFixed(2)} s; first fit dearer by ${median(dearer).toFixed(1)} % (median)`,
  );
}
