import { beforeAll, describe, expect, it } from 'vitest';
import { randomFrom } from '../../../src/base/random.js';
import { openSolver } from '../../../src/build/solver.js';
import type { Solve } from '../../../src/design/pieces/linear-program.js';
import { complaintsAboutPlan, randomPlan } from '../../support/random-plans.js';

let solve: Solve;
beforeAll(async () => {
  solve = await openSolver();
});

/** Numbers of random plans: more by hand, as `JOBS=10 SEED=2 npx vitest ...`. */
const times = Number(process.env.JOBS ?? 1);
const seed = 1000 * Number(process.env.SEED ?? 0);

describe('random plans stand up to validators that know nothing of the planner', () => {
  it.each([
    ['300 chosen quickly', 300, 0, false],
    ['16 by the solver', 16, 0, true],
    ['12 with a weld or two more than the fewest', 12, 2, true],
  ])('%s', (_, count, more, solved) => {
    const random = randomFrom(501 + seed + more);
    const seen = {
      plans: 0,
      bends: 0,
      inserts: 0,
      fromLegs: 0,
      wholes: 0,
      middles: 0,
      reversed: 0,
      parted: 0,
    };
    for (let i = 0; i < count * times; i++) {
      const made = randomPlan(random, solved ? solve : undefined, more && random.whole(1, more));
      if (!made) continue;
      expect(complaintsAboutPlan(made), `case ${i}: ${JSON.stringify(made.record)}`).toEqual([]);
      seen.plans++;
      for (const piece of made.record.pieces) {
        if (piece.kind === 'straight') seen.inserts++;
        else seen.bends++;
        if (piece.kind === 'straight' && piece.end !== undefined) seen.fromLegs++;
        if (piece.end === 'whole') seen.wholes++;
        if (piece.end === 'middle') seen.middles++;
        if (piece.reversed) seen.reversed++;
      }
      seen.parted += made.record.welds.filter(({ kind }) => kind === 'in-arc').length;
    }
    if (process.env.SHOW_TIMES) console.log(seen);
    for (const [what, n] of Object.entries(seen)) expect(n, what).toBeGreaterThan(0);
  });
});
