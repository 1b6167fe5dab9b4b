import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { checkJob } from '../../src/build/check-job.js';
import { openSolver } from '../../src/build/solver.js';
import { randomFrom } from '../../src/base/random.js';
import { designCradles } from '../../src/design/cradles.js';
import { designFlanges } from '../../src/design/flange/flange.js';
import type { CradlePart } from '../../src/design/parts.js';
import type { Solve } from '../../src/design/pieces/linear-program.js';
import { planPieces, weldPlaces } from '../../src/design/pieces/index.js';
import { linesByHand } from '../../src/design/routes-by-hand.js';
import { chordsOf } from '../../src/geom/chords.js';
import { readRack } from '../../src/job/index.js';
import type { Rack } from '../../src/job/rack.js';
import { march, type Row, type V } from '../support/plain-march.js';
import { fixture, twinJob } from './cradle-jobs.js';

let solve: Solve;
beforeAll(async () => {
  solve = await openSolver();
});

const textOf = (file: string): string =>
  readFileSync(new URL(`../../fixtures/${file}`, import.meta.url), 'utf8');
const rackOf = (text = textOf('hillclimb-four/rack.yaml')): Rack => {
  const { value } = readRack(text);
  if (!value) throw new Error('the rack did not read');
  return value;
};

/** A shipped job with its routes, designed. */
async function designed(name: string) {
  const file = `fixtures/${name}/job.yaml`;
  const checked = await checkJob({ file, shown: file, set: [], only: undefined });
  const { job, lines, rows } = checked;
  if (!job || !lines) throw new Error(JSON.stringify(checked.problems));
  const routes = [...lines].map(([id, line]) => ({ id, line, rows: rows.get(id) ?? [] }));
  return { ...checked, job, lines, routes };
}

type P = readonly [number, number];

/** A foot on the demo's base plate, which lies on the head: right and up are its own x and y. */
interface Foot {
  readonly at: P;
  readonly along: P;
  readonly half: P;
  /** Half length and half breadth of the block over it, and how high it stands. */
  readonly block: P;
  readonly high: number;
}

const demo = await designed('hillclimb-four');

describe("the demo's cradles, chosen by the program and looked at a second way", () => {
  const cradles = (demo.designed?.parts ?? []).filter((part): part is CradlePart => part.kind === 'cradle');
  const record = parse(textOf('hillclimb-four/routes.yaml')) as {
    primaries: { id: string; rows: Row[]; start: { at: V; direction: V; clock_reference: V } }[];
  };
  const marched = record.primaries.map(({ id, rows, start }) => ({
    id,
    line: march(start.at, start.direction, start.clock_reference, rows, 1),
  }));
  const lineOf = (id: string) => {
    const found = marched.find((one) => one.id === id);
    if (found === undefined) throw new Error(id);
    return found.line;
  };
  const footOf = ({ primary, station, width, halfBreadth, foot }: CradlePart): Foot => {
    const { stations } = lineOf(primary);
    const here = stations.reduce((a, b) => (Math.abs(b.s - station) < Math.abs(a.s - station) ? b : a));
    const level = Math.hypot(here.flow[0], here.flow[1]);
    const half: P = [width / 2, halfBreadth + foot.tab];
    return {
      at: [here.p[0], here.p[1]],
      along: [here.flow[0] / level, here.flow[1] / level],
      half,
      block: [width / 2, halfBreadth],
      high: here.p[2],
    };
  };
  /** A place in a foot's own directions. */
  const inFoot = ({ at, along }: Foot, [x, y]: P): P => {
    const [dx, dy] = [x - at[0], y - at[1]];
    return [dx * along[0] + dy * along[1], dy * along[0] - dx * along[1]];
  };

  it('two hold each primary, 1.5 diameters apart or more; P3 has one, which is told, and nothing is warned of', () => {
    const count = (id: string): number[] =>
      cradles.filter(({ primary }) => primary === id).map(({ station }) => station);
    for (const id of ['P1', 'P2', 'P4']) {
      const [a = NaN, b = NaN, ...more] = count(id);
      expect(more).toEqual([]);
      expect(b - a).toBeGreaterThanOrEqual(1.5 * 42.4);
    }
    expect(count('P3')).toHaveLength(1);
    expect(demo.problems.filter(({ severity }) => severity !== 'note')).toEqual([]);
    const told = demo.problems.filter(({ code }) => code === 'cradle/held-too-little');
    expect(told.map(({ what }) => what.slice(0, 2))).toEqual(['P3']);
  });

  it('the note gives every station as a line for the job', () => {
    const [note] = demo.problems.filter(({ code }) => code === 'cradle/stations-chosen');
    const list = parse(/at: (\[.*\])$/.exec(note?.fix ?? '')?.[1] ?? '') as unknown;
    expect(list).toEqual(cradles.map(({ primary, station }) => ({ primary, station })));
  });

  it('plastic begins 40 mm or more from every weld of the cut list, from the flange and from the sleeve', () => {
    const { value } = planPieces(demo.job, demo.routes, rackOf(), { solve });
    const welds = value?.welds ?? [];
    expect(welds).toHaveLength(12);
    for (const cradle of cradles) {
      const half = cradle.width / 2 / Math.cos(cradle.tilt);
      const own = welds.filter(({ primary }) => primary === cradle.primary).map(({ at }) => at);
      for (const at of [...own, lineOf(cradle.primary).length - 45])
        expect(Math.abs(cradle.station - at) - half, `${cradle.name} at ${at}`).toBeGreaterThanOrEqual(
          40 - 1e-6,
        );
    }
  });

  it('no tube runs through a block, no two feet overlap: both by points', () => {
    for (const cradle of cradles) {
      const foot = footOf(cradle);
      for (const { id, line } of marched)
        for (const { s, p } of line.stations) {
          if (id === cradle.primary && Math.abs(s - cradle.station) < 10 + 42.4) continue;
          const [along, across] = inFoot(foot, [p[0], p[1]]);
          const out = Math.hypot(
            Math.max(0, Math.abs(along) - foot.block[0]),
            Math.max(0, Math.abs(across) - foot.block[1]),
            Math.max(0, p[2] - foot.high - 15),
          );
          expect(out, `${cradle.name} and ${id} at ${s}`).toBeGreaterThan(42.4 / 2 - 1);
        }
    }
    const feet = cradles.map(footOf);
    for (const [i, a] of feet.entries())
      for (const b of feet.slice(i + 1))
        for (let u = -1; u <= 1.001; u += 0.05)
          for (let v = -1; v <= 1.001; v += 0.02) {
            const [c, s] = [u * b.half[0], v * b.half[1]];
            const [x, y]: P = [
              b.at[0] + c * b.along[0] - s * b.along[1],
              b.at[1] + c * b.along[1] + s * b.along[0],
            ];
            const [along, across] = inFoot(a, [x, y]);
            const inside = Math.abs(along) < a.half[0] - 0.5 && Math.abs(across) < a.half[1] - 0.5;
            expect(inside).toBe(false);
          }
  });

  it('no foot lies under the flange, whose outline is followed by points', () => {
    const outline = (designFlanges(demo.job).value ?? []).flatMap(({ part }) => chordsOf(part.outline, 0.05));
    expect(outline.length).toBeGreaterThan(50);
    for (const foot of cradles.map(footOf))
      for (const at of outline) {
        const [along, across] = inFoot(foot, at);
        expect(Math.abs(along) < foot.half[0] && Math.abs(across) < foot.half[1]).toBe(false);
      }
  });

  it('P3 really has no second place: every 5 mm by itself, as if asked by hand', () => {
    const { tackFixture } = demo.job;
    if (!tackFixture) throw new Error('no fixture');
    const own = weldPlaces(demo.job, demo.routes, rackOf()).get('P3') ?? [];
    const line = demo.lines.get('P3');
    const length = line?.length ?? 0;
    const free: number[] = [];
    for (let station = 5; station < length; station += 5) {
      const heat = Math.min(...[0, ...own, length - 45].map((at) => Math.abs(at - station)));
      if (heat < 40 + 9) continue;
      const at = [{ primary: 'P3', station, path: 'tack_fixture.cradle.at.0' }];
      const job = { ...demo.job, tackFixture: { ...tackFixture, cradle: { ...tackFixture.cradle, at } } };
      const found = designCradles(job, demo.lines);
      // A cradle that was moved does not stand where it was asked.
      if (found.problems.length === 0) free.push(station);
    }
    expect(free.length).toBeGreaterThanOrEqual(3);
    expect(Math.max(...free) - Math.min(...free)).toBeLessThan(1.5 * 42.4);
    const chosen = cradles.find(({ primary }) => primary === 'P3')?.station ?? NaN;
    expect(Math.min(...free.map((station) => Math.abs(station - chosen)))).toBeLessThanOrEqual(5);
  });
});

describe('where stations are chosen', () => {
  const chosen = (change: Record<string, unknown>, base?: Record<string, unknown>, more = {}) => {
    const cradle: Record<string, unknown> = { ...fixture([], change, base).cradle };
    delete cradle.at;
    const tack_fixture = { ...fixture([], {}, base), cradle };
    const job = twinJob({ tack_fixture, ...more });
    return { job, ...designCradles(job, linesByHand(job)) };
  };

  it('auto is the default, and is told among the defaults', () => {
    const { job, value } = chosen({});
    expect(job.tackFixture?.cradle.at).toBe('auto');
    expect(job.defaults).toContainEqual({ path: 'tack_fixture.cradle.at', value: 'auto' });
    expect(value?.map(({ primary }) => primary)).toEqual(['P1', 'P1', 'P2', 'P2']);
  });

  /*
   * By hand: 120 straight, a quarter turn of CLR 63.6 (99.9 long, to 219.9), 200 straight, in one level. Without
   * a rack both ends of the bend count as welds, so 50 mm are kept from 0, 120, 219.9 and 419.9: free are 50 to
   * 70, nothing on the bend (its middle is 49.95 from either end), 270 to 369.9. On whole 5 mm the farthest pair is
   * 50 and 365, on different straights.
   */
  it('the farthest pair that keeps 40 mm from flange, bend ends and collector, on the level twin', () => {
    const { value, problems } = chosen({});
    expect(value?.map(({ station }) => station)).toEqual([50, 365, 50, 365]);
    expect(problems.map(({ code }) => code)).toEqual(['cradle/stations-chosen']);
  });

  it('a weld told of is kept clear, and bend ends that carry none are not', () => {
    const { job } = chosen({});
    const welds = new Map([
      ['P1', [60]],
      ['P2', [330]],
    ]);
    const { value } = designCradles(job, linesByHand(job), () => welds);
    // P1: 110 would lie 10 mm from the bend's begin, which is what its saddle needs; P2: 330 - 50 and 50.
    expect(value?.map(({ primary, station }) => `${primary} ${station}`)).toEqual([
      'P1 110',
      'P1 365',
      'P2 50',
      'P2 280',
    ]);
  });

  // 300 up, the lips stand 300 - 21.5 cos 85 deg = 298.1 high on a bed of 250; 30 up, 30 - 21.5 - 9 is 6.5 short of 6.
  it.each([
    ['higher than the printer reaches', [0, -300, 0], /tack_fixture.base.at 49 mm or more nearer/],
    ['too low over the base plane', [0, -30, 0], /tack_fixture.base.at 7 mm or more away/],
  ])('nothing is made, and that is said: %s', (words, at, fix) => {
    const { value, problems } = chosen({}, { at, normal: [0, 1, 0] });
    expect(value).toEqual([]);
    expect(problems.map(({ code, severity }) => `${severity} ${code}`)).toEqual([
      'warning cradle/held-too-little',
      'warning cradle/held-too-little',
    ]);
    expect(problems[0]?.what).toContain(`% of it lies ${words}`);
    expect(problems[0]?.fix).toMatch(fix);
  });

  it('tubes one over the other: only the lower is held where they cross', () => {
    // P2 stands 500 to the right; turned left it comes back under P1's end, 60 lower.
    const more = {
      ports: {
        shape: { circle: { diameter: 36 } },
        each: [
          { at: [0, 0, 0], direction: [0, 0, 1] },
          { at: [500, -70, 0], direction: [0, 0, 1] },
        ],
      },
      primaries: {
        by_hand: {
          P1: [{ straight: 120 }, { clr: 63.6, angle: 90, clock: -90 }, { straight: 200 }],
          P2: [{ straight: 120 }, { clr: 63.6, angle: 90, clock: 90 }, { straight: 400 }],
        },
      },
    };
    const { value } = chosen({}, { at: [0, -140, 0], normal: [0, 1, 0] }, more);
    const stations = (id: string) =>
      value?.filter(({ primary }) => primary === id).map(({ station }) => station);
    expect(stations('P2')).toEqual([50, 565]);
    // P2's last straight runs at the height 70 below P1's, right under it from right = 36 to 264: none of P1's is free.
    expect(stations('P1')).toHaveLength(1);
  });
});

describe('where pieces may be joined', () => {
  it.each(['hillclimb-four', 'by-hand-four'])(
    '%s: whatever the prices, every weld of the plan stands at one of the places told',
    async (name) => {
      const { job, routes } = await designed(name);
      const random = randomFrom(3);
      const plans = new Set<string>();
      for (let i = 0; i < 12; i++) {
        const rack = rackOf(
          textOf('hillclimb-four/rack.yaml').replace(/price: [\d.]+/g, () => `price: ${random.whole(1, 60)}`),
        );
        const places = weldPlaces(job, routes, rack);
        const { value } = planPieces(job, routes, rack, i % 2 === 0 ? {} : { solve });
        const between = (value?.welds ?? []).filter(({ kind }) => kind !== 'flange');
        expect(between.length).toBeGreaterThanOrEqual(8);
        plans.add(between.map(({ at }) => at.toFixed(1)).join());
        for (const { primary, at } of between) {
          const off = Math.min(...(places.get(primary) ?? []).map((each) => Math.abs(each - at)));
          expect(off, `${primary} ${at}`).toBeLessThan(1e-6);
        }
      }
      expect(plans.size).toBeGreaterThanOrEqual(1);
    },
  );
});
