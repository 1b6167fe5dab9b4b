import { describe, expect, it } from 'vitest';
import { distance3 } from '../../src/base/vectors.js';
import { checkLines, linesByHand, primaryStart } from '../../src/design/routes-by-hand.js';
import { twinJob } from './cradle-jobs.js';

const told = (sections: Record<string, unknown>) => {
  const job = twinJob(sections);
  return checkLines(job, linesByHand(job));
};
/** Both tubes of 42.4 run straight out of the head and end 200 out; slots 60 apart stand on their axes. */
const ports = { shape: { circle: { diameter: 36 } }, row: { count: 2, pitch: 60 } };
const studs = {
  thread: 'M8',
  beside_each_port: [
    [0, 35],
    [0, -35],
  ],
};
const collector = {
  joint: 'slip',
  at: [30, 0, 200],
  flow: [0, 0, 1],
  slot_gap: 17.6,
  // Clocking zero is up, for a flow along out; right hand about out, 90 degrees lead from up to left.
  clocking: 90,
  slip: { depth: 45, gap: 0.4 },
};
const straights = (p1: number, p2 = p1) => ({
  by_hand: { P1: [{ straight: p1 }], P2: [{ straight: p2 }] },
});

describe('centre lines by hand', () => {
  it("begin at the flange's tube side, 10 mm off the face, along the port; at the port itself without a flange", () => {
    const job = twinJob();
    const line = linesByHand(job).get('P2');
    expect(line?.start.at).toEqual([500, 0, 10]);
    expect(line?.start.clockReference).toEqual([0, 1, 0]);
    // Out 120 to z 130, a quarter turn toward +x takes 63.6 each way, then 200.
    expect(distance3(line?.end.at ?? [0, 0, 0], [500 + 63.6 + 200, 0, 130 + 63.6])).toBeLessThan(1e-9);
    const [port] = job.ports;
    if (port === undefined) throw new Error('no port');
    expect(primaryStart(port, 0).at).toEqual([0, 0, 0]);
  });
});

describe('what is told of routes by hand', () => {
  it('nothing where both meet their slots', () => {
    expect(told({ ports, studs, collector, primaries: straights(190) })).toEqual([]);
  });

  it('a miss along the tube: how far, and how much longer to make the last straight', () => {
    const [problem, ...others] = told({ ports, studs, collector, primaries: straights(185.5, 190) });
    expect(others).toEqual([]);
    expect(problem).toMatchObject({ code: 'cradle/misses-slot', severity: 'warning' });
    expect(problem?.what).toMatch(/^P1 ends 4.5 mm from S1 and 0 deg off/);
    expect(problem?.fix).toBe('make its last straight 4.5 mm longer');
  });

  it('a miss aside and askew is told with what remains', () => {
    const moved = { ...collector, at: [33, 4, 198] };
    const found = told({ ports, studs, collector: moved, primaries: straights(190) });
    expect(found.map(({ code }) => code)).toEqual(['cradle/misses-slot', 'cradle/misses-slot']);
    // 3 right, 4 up, 2 back: sqrt 29 in all, 5 of it sideways.
    expect(found[0]?.what).toMatch(/ends 5.4 mm from/);
    expect(found[0]?.fix).toBe(
      'make its last straight 2 mm shorter; 5 mm sideways then remain, for its bends to take up',
    );
    const leaning = { ...collector, joint: 'welded', half_angle: 8 };
    expect(told({ ports, studs, collector: leaning, primaries: straights(190) })[0]?.what).toMatch(
      /8 deg off/,
    );
  });

  it('two at one slot; slots named in the job are taken at their word; a free clocking is not judged', () => {
    const both = { ...collector, at: [0, 0, 200] };
    const shared = told({ ports, studs, collector: both, primaries: straights(190) });
    expect(shared.map(({ code }) => code)).toContain('cradle/misses-slot');
    const crossed = { ...collector, slots: ['S2', 'S1'] };
    const named = told({ ports, studs, collector: crossed, primaries: straights(190) });
    expect(named.map(({ what }) => /ends 60 mm from (S\d)/.exec(what)?.[1])).toEqual(['S2', 'S1']);
    const far = { ...collector, at: [300, 0, 200] };
    expect(
      told({ ports, studs, collector: far, primaries: straights(190) }).map(({ code }) => code),
    ).toContain('cradle/slot-shared');
    const free = { ...collector, clocking: undefined };
    expect(told({ ports, studs, collector: free, primaries: straights(150) })).toEqual([]);
  });

  it('lengths apart beyond the spread, and not the length asked', () => {
    const apart = told({ primaries: straights(800, 803.5), length: { target: 801, spread: 2 } });
    expect(apart.map(({ code }) => code)).toEqual(['cradle/lengths-apart', 'cradle/length-not-asked']);
    expect(apart[0]?.what).toMatch(
      /P2 is 803.5 mm long and P1 800: 3.5 mm apart, where the spread asked is 2/,
    );
    expect(apart[0]?.fix).toMatch(/bring them 1.5 mm nearer/);
    expect(apart[1]?.fix).toMatch(/2.5 mm shorter/);
    expect(told({ primaries: straights(800, 801.9), length: { target: 801, spread: 2 } })).toEqual([]);
    expect(told({ primaries: straights(640, 640), length: { between: [650, 700], spread: 2 } })).toHaveLength(
      2,
    );
  });
});
