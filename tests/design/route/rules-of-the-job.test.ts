import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import { radians } from '../../../src/base/numbers.js';
import { certificatesOf } from '../../../src/design/route/certificates.js';
import { isRoutable, routeJob, setProblem } from '../../../src/design/route/index.js';
import { leastWeldsOf } from '../../../src/design/route/weld-bound.js';
import { weldCounter } from '../../../src/design/pieces/weld-counter.js';
import { cuttingRules } from '../../../src/design/pieces/rules.js';
import { leastSpareBetween } from '../../../src/geom/line-to-line.js';
import { packCentreLine } from '../../../src/geom/packed-line.js';
import { centreLineOf } from '../../../src/geom/centre-line.js';
import { readJob } from '../../../src/job/index.js';
import { judgeRoutes } from '../../support/judge.js';
import { caseText, routingCase } from '../../support/routing-cases.js';

const { rack } = routingCase('i4-easy');
const rackText = stringify({ bends: [42.4, 63.6, 84.8].map((clr) => ({ clr, legs: [100, 100] })) });
const read = (text: string) => {
  const { value, problems } = readJob(text);
  if (value === undefined || !isRoutable(value)) throw new Error(JSON.stringify(problems));
  return value;
};

/** Two ports straight out, a welded collector below; invented. */
const twin = (more: { primaries?: object; keepOuts?: object[]; byHand?: object; length?: object } = {}) =>
  stringify({
    job: 'twin',
    ports: {
      each: [
        { at: [0, 0, 0], direction: [0, 0, 1] },
        { at: [100, 0, 0], direction: [0, 0, 1] },
      ],
    },
    tube: { od: 42.4, wall: 1.6, material: '304' },
    primaries: {
      stub: 20,
      between: 5,
      last_straight: 45,
      least_angle: 5,
      largest_angle: 150,
      ...more.primaries,
      ...(more.byHand ? { by_hand: more.byHand } : {}),
    },
    collector: {
      joint: 'welded',
      at: { right: 50, up: -380, out: 150 },
      flow: { right: 0, up: -1, out: 0 },
      half_angle: 4,
      clocking: 90,
      slot_gap: 4,
      body: { length: 160, diameter: 110, clear: 4 },
      slots: 'shortest',
    },
    length: more.length ?? { between: [560, 640], spread: 0.1 },
    rack: 'rack.yaml',
    keep_outs: more.keepOuts ?? [],
    clear: { tube_to_tube: 6, near_slots: 4 },
  });

describe('rules that fix the geometry', () => {
  /** Cleared at 10 mm: its front at z = -19.2, 8 clear, 21.2 of tube. */
  const head = {
    name: 'head',
    clear: 8,
    head_of: ['P1', 'P2'],
    box: { from: [-80, -90, -200], to: [180, 100, -19.2] },
  };
  /** Cleared by P1's axis at 20 + 8 + 21.2 = 49.2 mm. */
  const lug = { name: 'lug', clear: 8, head_of: ['P1'], box: { from: [-15, 30, -19], to: [15, 45, 20] } };

  it('each head is waived by itself: the one that is cleared first does not wait for the other', () => {
    const problem = setProblem(read(twin({ keepOuts: [head, lug] })), rack);
    const [one, two] = problem.starts.map(({ waiver }) => waiver);
    expect(one?.heads[0]).toBe(20);
    // The lug's nearest edge is 30 above the axis: clear where sqrt(30^2 + (z - 20)^2) = 29.2 or more: at once.
    expect(one?.heads[1]).toBe(20);
    expect(two?.heads).toHaveLength(1);
    const low = { ...lug, box: { from: [-15, 20, -19], to: [15, 45, 20] } };
    const nearer = setProblem(read(twin({ keepOuts: [head, low] })), rack).starts[0]?.waiver;
    // 20 above the axis: clear where (z - 20)^2 = 29.2^2 - 20^2, so at 41.275.
    expect(nearer?.heads[0]).toBe(20);
    expect(nearer?.heads[1]).toBeGreaterThanOrEqual(20 + Math.sqrt(29.2 ** 2 - 20 ** 2));
    expect(nearer?.heads[1]).toBeLessThan(20 + Math.sqrt(29.2 ** 2 - 20 ** 2) + 0.02);
  });

  it('a head that the axis clears at once and meets again counts from the stub on', () => {
    // 60 mm ahead of the port a shelf of its own head stands across the way.
    const shelf = {
      name: 'shelf',
      clear: 8,
      head_of: ['P1'],
      box: { from: [-15, -30, 60], to: [15, 30, 70] },
    };
    const text = twin({ keepOuts: [shelf] });
    const start = setProblem(read(text), rack).starts[0];
    expect(start?.waiver.heads).toEqual([20]);
    expect(start?.waiver.clearTo).toBeLessThan(31);
    const result = routeJob(read(text), rack, { seed: 1, effort: 'quick', explain: false });
    if (result.record) expect(judgeRoutes(text, rackText, result.record).faults).toEqual([]);
  });

  it('a slot that a primary given by hand takes is not said to be blocked', () => {
    // Across the last straight of S2, which P2 goes through as it was given.
    const [s1, s2] = setProblem(read(twin()), rack).slots;
    if (!s1 || !s2) throw new Error('two slots');
    const peg = {
      name: 'peg',
      clear: 1,
      box: { from: [s2.at[0] - 2, -360, 148], to: [s2.at[0] + 2, -350, 152] },
    };
    const free = setProblem(read(twin({ keepOuts: [peg] })), rack);
    expect(certificatesOf(free).map(({ kind }) => kind)).toContain('slot blocked');
    const first = read(twin());
    const result = routeJob(first, rack, { seed: 1, effort: 'quick' });
    const given = result.record?.primaries.find(({ slot }) => slot === 'S2');
    if (!given) throw new Error('the job without the peg is not routed');
    const kept = read(twin({ keepOuts: [peg], byHand: { [given.id]: given.rows } }));
    expect(certificatesOf(setProblem(kept, rack))).toEqual([]);
  });

  it('a primary given by hand may be one straight', () => {
    const straight = centreLineOf({ at: [0, 0, 0], direction: [0, 0, 1], clockReference: [0, 1, 0] }, [
      { straight: 300 },
    ]);
    const beside = centreLineOf({ at: [100, 0, 0], direction: [0, 0, 1], clockReference: [0, 1, 0] }, [
      { straight: 100 },
      { clr: 63.6, angle: radians(30), clock: radians(90) },
      { straight: 60 },
    ]);
    const [a, b] = [packCentreLine(straight), packCentreLine(beside)];
    const march = { floor: 0.1, stop: -Infinity, cap: 1000 };
    const asked = { anywhere: 48.4, nearEnds: 46 };
    // By the drawing: the bend leans over the straight, so the nearest that counts is the bend's end, at
    // 63.6 (1 - cos 30) = 8.521 nearer than 100; its beginning, 100 off, is asked 48.4.
    for (const [p, q] of [
      [a, b],
      [b, a],
    ] as const)
      expect(leastSpareBetween(p, q, asked, march)).toBeCloseTo(
        100 - 63.6 * (1 - Math.cos(radians(30))) - 46,
        6,
      );
  });

  it('a stud with a thread of its own takes the room of its own socket', () => {
    const studs = { thread: 'M6', at: [[-30, 0], { at: [30, 0], thread: 'M10' }, { at: [0, 40], hole: 8 }] };
    const text = twin().replace('tube:', `studs: ${JSON.stringify(studs)}\ntube:`);
    const spaces = setProblem(read(text), rack).obstacles.filter(({ name }) => name.startsWith('wrench'));
    // M6 17 + 3 and M10 27 + 3, of the table of head clearances; a wider hole leaves the thread as it is.
    expect(spaces.map(({ solid }) => ('diameter' in solid ? solid.diameter : NaN))).toEqual([20, 30, 20]);
  });
});

describe('a first cut that is oblique', () => {
  it('the least first straight is as long as the cut on its short side, and the count knows it', () => {
    // Leaving 30 deg down, 42.4 / 2 x tan 30 deg = 12.24 mm: more than a stub of 10, less than one of 20.
    const starts = (stub: number) => {
      const text = twin({ primaries: { stub } })
        .replace(/direction:\n *- 0\n *- 0\n *- 1/g, 'leaving: { down: 30 }')
        .replace('each:', 'shape: { circle: { diameter: 36 } }\n  each:')
        .concat('studs: { thread: M8, at: [[-33, 0], [133, 0]] }\nflange: { thickness: 10 }\n');
      return setProblem(read(text), rack).starts;
    };
    const reach = 21.2 * Math.tan(radians(30));
    for (const start of starts(10)) expect(start.stub).toBeCloseTo(reach, 9);
    for (const start of starts(20)) expect(start.stub).toBe(20);
    for (const { countWelds } of starts(10)) {
      const welds = (first: number) => countWelds([first, 80, 90], [63.6, 63.6], [1, 1]);
      expect([welds(reach + 0.1), welds(reach - 0.1)]).toEqual([3, Infinity]);
    }
  });
});

describe('what is proved', () => {
  it('with no straight at the flange two bends take two welds, and the bound knows it', () => {
    const straights = [0, 150, 90];
    const count = weldCounter(cuttingRules(rack))(straights, [63.6, 63.6], [radians(60), radians(60)]);
    // The piece plan: a bend with a leg of 100 downstream, one with 100 downstream, 50 between them.
    expect(count).toBe(3);
    expect(weldCounter(cuttingRules(rack))([0, 80, 90], [63.6, 63.6], [1, 1])).toBe(2);
    const least = (primaries: object): number => leastWeldsOf(setProblem(read(twin({ primaries })), rack))(2);
    expect([least({}), least({ stub: 0 }), least({ last_straight: 0 })]).toEqual([3, 2, 2]);
  });

  it('a way as long as the window to the last digit is not said to be too far', () => {
    const target = 517.3;
    const least = (short: number): readonly string[] => {
      const text = twin({ length: { target: target - short } })
        .replace(/ {4}- at:\n {8}- 100[\s\S]*?(?=tube:)/, '')
        .replace(/right: 50\n {4}up: -380\n {4}out: 150/, `right: 0\n    up: 0\n    out: ${target}`)
        .replace(/right: 0\n {4}up: -1\n {4}out: 0/, 'right: 0\n    up: 0\n    out: 1');
      return certificatesOf(setProblem(read(text), rack)).map(({ kind }) => kind);
    };
    expect([least(0), least(1e-9), least(1e-3)]).toEqual([[], [], ['too far']]);
  });

  it('bends of half a turn allowed: the search ends, and nothing is proved of the bends it does not make', () => {
    const text = caseText('v2').replace('largest_angle: 150.0', 'largest_angle: 180');
    const { job, rack: own } = routingCase('v2', text);
    const result = routeJob(job, own, { seed: 1, effort: 'quick' });
    expect(result.outcome).toBe('routed');
    expect(result.bound).toBe(6);
  });
});
