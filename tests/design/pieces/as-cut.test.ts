import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { openSolver } from '../../../src/build/solver.js';
import type { Solve } from '../../../src/design/pieces/linear-program.js';
import { chooseStock } from '../../../src/design/pieces/choose-stock.js';
import { freeMeasures } from '../../../src/design/pieces/free-measures.js';
import { layOut } from '../../../src/design/pieces/lay-out.js';
import { planPieces } from '../../../src/design/pieces/plan-pieces.js';
import { cuttingRules } from '../../../src/design/pieces/rules.js';
import { rackOf } from '../../support/trial-pieces.js';
import { cutListRecord } from '../../../src/design/pieces/record.js';
import { linesByHand } from '../../../src/design/routes-by-hand.js';
import { readJob, readRack } from '../../../src/job/index.js';
import type { Problem } from '../../../src/base/problems.js';
import { parse } from 'yaml';
import { complaintsAbout, type Record_, type RouteToMatch } from '../../support/check-cut-list.js';
import { dot, far, march, type Row, type V } from '../../support/plain-march.js';

let solve: Solve;
beforeAll(async () => {
  solve = await openSolver();
});

const text = (path: string): string =>
  readFileSync(new URL(`../../../fixtures/${path}`, import.meta.url), 'utf8');
const jobText = text('by-hand-four/job.yaml');

type Corrected = Omit<Record_, 'pieces'> & {
  pieces: (Record_['pieces'][number] & { as_cut?: string })[];
  scrap?: { id: string; stock: string }[];
};

function plan(
  asCut: string,
  rackText = text('hillclimb-four/rack.yaml'),
): { record: Corrected | undefined; problems: readonly Problem[] } {
  const { value: job, problems: read } = readJob(`${jobText}\n${asCut}\n`);
  const rack = readRack(rackText).value;
  if (!job || !rack) return { record: undefined, problems: read };
  const routes = [...linesByHand(job)].map(([id, line]) => ({
    id,
    line,
    rows: job.primaries?.byHand[id] ?? [],
  }));
  const { value, problems } = planPieces(job, routes, rack, { solve });
  const record = value && (JSON.parse(JSON.stringify(cutListRecord(value))) as Corrected);
  return { record, problems };
}

const corrected = (asCut: string, rackText?: string): { record: Corrected; problems: readonly Problem[] } => {
  const { record, problems } = plan(asCut, rackText);
  if (!record) throw new Error(`no plan: ${problems.map(({ what }) => what).join('; ')}`);
  return { record, problems };
};

/** The routes as their file has them; start and directions written out. */
const byHand = (parse(jobText) as { primaries: { by_hand: Record<string, Row[]> } }).primaries.by_hand;
const routes = Object.entries(byHand).map(([id, rows], i): RouteToMatch => {
  const down = (12 * Math.PI) / 180;
  return {
    id,
    start: [92 * i, 0, 10],
    direction: [0, -Math.sin(down), Math.cos(down)],
    reference: [0, 1, 0],
    rows,
  };
});

/** A primary welded up from the pieces of a record: where it ends, by the plain march. */
function endOf(record: Corrected, id: string): { at: V; flow: V } {
  const route = routes.find((one) => one.id === id);
  if (!route) throw new Error(id);
  const rows = record.pieces
    .filter(({ primary }) => primary === id)
    .flatMap((p): Row[] =>
      p.kind === 'straight'
        ? [{ straight: p.length }]
        : [{ straight: p.leg_up }, { clr: p.clr, angle: p.angle, clock: p.clock }, { straight: p.leg_down }],
    );
  return march(route.start, route.direction, route.reference, rows, 5).end;
}

/** How far that end is from the route's own end: mm, deg. */
function missOf(record: Corrected, id: string): { mm: number; deg: number } {
  const route = routes.find((one) => one.id === id);
  if (!route) throw new Error(id);
  const asked = march(route.start, route.direction, route.reference, route.rows, 5).end;
  const end = endOf(record, id);
  return {
    mm: far(end.at, asked.at),
    deg: (Math.acos(Math.min(1, dot(end.flow, asked.flow))) * 180) / Math.PI,
  };
}

const pieceOf = (record: Corrected, id: string) => {
  const piece = record.pieces.find((one) => one.id === id);
  if (!piece) throw new Error(`no ${id}`);
  return piece;
};

const numbersOf = (text: string, pattern: RegExp): number[] =>
  (pattern.exec(text) ?? []).slice(1).map(Number);

describe('a piece that is scrap', () => {
  it('is cut anew from what is left: all others stay, and the whole stands up to the second look', () => {
    const plain = corrected('').record;
    const bends = plain.pieces.filter(({ kind }) => kind === 'bend').map(({ id }) => id);
    const last = plain.pieces.filter(({ kind }) => kind === 'straight').at(-1);
    for (const id of [bends[0], bends[3], last?.id]) {
      const { record, problems } = corrected(`as_cut: { ${id}: scrap }`);
      expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
      const spoilt = pieceOf(plain, id ?? '');
      expect(record.scrap).toEqual([{ id, stock: spoilt.stock }]);
      const anew = record.pieces.filter(({ as_cut }) => as_cut === 'cut anew');
      expect(anew.length).toBeGreaterThan(0);
      const rest = ({ pieces }: Corrected) => pieces.filter((p) => p.id !== id && p.as_cut === undefined);
      expect(rest(record)).toEqual(rest(plain));
      // New stock is bought or left of what was used; what was used is still in the list.
      expect(record.stock.slice(0, 3)).toEqual(plain.stock.slice(0, 3));
      for (const piece of anew) expect(plain.stock.map((item) => item.id)).not.toContain(piece.stock);
      // The second look knows nothing of scrap: it misses the spoilt piece on its own stock, and nothing else.
      const complaints = complaintsAbout(record, 42.4, routes).filter(
        (one) => !one.startsWith(`${spoilt.stock}:`) && !one.startsWith(`${spoilt.stock} is bought`),
      );
      expect(complaints).toEqual([]);
      // A leftover that is sawn is no longer left over.
      for (const item of record.stock.filter(({ rack }) => rack.startsWith('left of'))) {
        const from = /left of (\w+)/.exec(item.rack)?.[1];
        expect(
          record.leftovers.filter(
            (left) => left.stock === from && left.angle === item.angle && left.length === item.length,
          ),
        ).toEqual([]);
      }
    }
  });

  it('is taken from a leftover where that will do: the straight again off the same stick, at no cost', () => {
    const plain = corrected('').record;
    const piece = plain.pieces.find(
      (p) =>
        p.kind === 'straight' &&
        plain.leftovers.some(({ length = 0 }) => length >= p.length + 2 * 3 && length > 0),
    );
    if (!piece) throw new Error('no such straight');
    const { record } = corrected(`as_cut: { ${piece.id}: scrap }`);
    expect(record.totals.cost).toBeCloseTo(plain.totals.cost, 9);
    const stock = record.stock.find(({ id }) => id === pieceOf(record, piece.id).stock);
    expect(stock?.rack).toMatch(/^left of [BT]\d/);
  });

  it('a rack with nothing more refuses, with the piece and what to buy', () => {
    const plain = corrected('').record;
    const counts = new Map<string, number>();
    for (const { rack } of plain.stock) counts.set(rack, (counts.get(rack) ?? 0) + 1);
    const whole = text('hillclimb-four/rack.yaml');
    let [bend, stick] = [0, 0];
    const limited = whole.replaceAll(/quantity: unlimited/g, (_, at: number) => {
      const straights = at > whole.indexOf('straights:');
      const path = straights ? `straights.${stick++}` : `bends.${bend++}`;
      return `quantity: ${counts.get(path) ?? 0}`;
    });
    const largest = plain.pieces.filter(({ kind }) => kind === 'bend').sort((a, b) => b.angle - a.angle)[0];
    const { record, problems } = plan(`as_cut: { ${largest?.id}: scrap }`, limited);
    expect(record).toBeUndefined();
    expect(problems.map(({ code }) => code)).toContain('pieces/stock-used-up');
    expect(problems.at(-1)?.place?.path).toBe(`as_cut.${largest?.id}`);
    expect(problems.at(-1)?.fix).toMatch(/buy .*\d/);
  });
});

describe('a piece that measures otherwise', () => {
  it('the miss told is that of the plain march, before and after; the re-cut list brings it nearer by far', () => {
    const plain = corrected('').record;
    const enoughs = new Set<boolean>();
    for (const [id, off] of [
      ['P1-2', -0.4],
      ['P1-2', -1.5],
      ['P2-1', -2],
      ['P3-2', 2],
    ] as const) {
      const primary = id.slice(0, 2);
      const angle = pieceOf(plain, id).angle + off;
      const spoilt = structuredClone(plain);
      pieceOf(spoilt, id).angle = angle;
      const before = missOf(spoilt, primary);
      const { record, problems } = corrected(`as_cut: { ${id}: { angle: ${angle} } }`);
      const told = problems.find(({ code }) => code === 'pieces/as-cut-misses');
      expect(told?.place?.path).toBe(`as_cut.${id}`);
      const [mm, deg] = numbersOf(told?.what ?? '', /by ([\d.]+) mm and ([\d.]+) deg/);
      expect(Math.abs((mm ?? NaN) - before.mm)).toBeLessThan(0.051);
      expect(Math.abs((deg ?? NaN) - before.deg)).toBeLessThan(0.051);
      const after = missOf(record, primary);
      const [left, turned] = numbersOf(told?.fix ?? '', /: ([\d.]+) mm and ([\d.]+) deg are left/);
      expect(Math.abs((left ?? NaN) - after.mm)).toBeLessThan(0.051);
      expect(Math.abs((turned ?? NaN) - after.deg)).toBeLessThan(0.051);
      expect(after.mm).toBeLessThan(before.mm / 3);
      // Only where it stays too far off: how far the tube stands, for the router to go on from. All its pieces up to
      // that one, end to end: the butt joint starts on the flange.
      const tooFar = after.mm > 1 || after.deg > 0.5;
      const [upTo] = numbersOf(told?.fix ?? '', /up_to: ([\d.]+) with end/);
      expect(upTo !== undefined).toBe(tooFar);
      const own = record.pieces.filter((piece) => piece.primary === primary);
      const stands = own.slice(0, own.findIndex((piece) => piece.id === id) + 1);
      const along = stands.reduce((sum, p) => {
        const bend = (p.leg_up ?? 0) + ((p.clr ?? 0) * (p.angle ?? 0) * Math.PI) / 180 + (p.leg_down ?? 0);
        return sum + (p.length ?? bend);
      }, 0);
      if (tooFar) expect(Math.abs((upTo ?? NaN) - along)).toBeLessThan(0.051);
      expect(pieceOf(record, id)).toMatchObject({ as_cut: 'as cut', angle });
      // What is to be cut otherwise says so on the list, and where it will not do all the same.
      const marked = record.pieces.map((one) => one.as_cut).filter((one) => one?.startsWith('re-cut'));
      const enough = after.mm <= 1 && after.deg <= 0.5;
      expect(new Set(marked)).toEqual(new Set([enough ? 're-cut' : 're-cut, too far']));
      enoughs.add(enough);
      // Other primaries are as they were, but for straights that moved along a stick.
      for (const other of ['P1', 'P2', 'P3', 'P4'].filter((one) => one !== primary))
        expect(missOf(record, other).mm).toBeLessThan(1e-6);
      // The sticks still add up: no piece over another, no raw end used.
      const sticks = new Set(record.stock.filter(({ length }) => length !== undefined).map((one) => one.id));
      expect(
        complaintsAbout(record, 42.4, []).filter((one) => sticks.has(one.split(/[: ]/)[0] ?? '')),
      ).toEqual([]);
    }
    expect(enoughs.size).toBe(2);
  });

  it('a last straight sawn 3 mm short: told as 3 mm short in the same direction', () => {
    const plain = corrected('').record;
    const { length } = pieceOf(plain, 'P1-3');
    const { problems, record } = corrected(`as_cut: { P1-3: { length: ${length - 3} } }`);
    const told = problems.find(({ code }) => code === 'pieces/as-cut-misses');
    // On paper: a straight that is 3 mm short ends 3 mm short, in the same direction.
    expect(told?.what).toContain('by 3 mm and 0 deg');
    expect(missOf(record, 'P1').mm).toBeLessThanOrEqual(3);
  });

  it('no other lengths and turns of the same freedom end nearer: 3000 random ones tried', () => {
    const plain = corrected('').record;
    const angle = pieceOf(plain, 'P1-2').angle + 6;
    const { record } = corrected(`as_cut: { P1-1: good, P1-2: { angle: ${angle} } }`);
    const score = (one: Corrected): number => {
      const { mm, deg } = missOf(one, 'P1');
      return Math.hypot(mm, deg);
    };
    expect(pieceOf(record, 'P1-1')).toMatchObject({ ...pieceOf(plain, 'P1-1'), as_cut: 'good' });
    const found = score(record);
    let state = 7;
    const random = (): number => (state = (state * 16807) % 2147483647) / 2147483647 - 0.5;
    for (let i = 0; i < 3000; i++) {
      const other = structuredClone(record);
      // Free are the turn of P1-2 and, shorter than its stick allows, the length of P1-3.
      const reach = i % 2 === 0 ? 1 : 20;
      pieceOf(other, 'P1-2').clock += reach * random();
      pieceOf(other, 'P1-3').length -= Math.abs(reach * random());
      expect(score(other)).toBeGreaterThan(found - 0.06);
    }
  });
});

it('a leg cut longer: trim, marks and what is left of it follow', () => {
  const rack = readRack(text('hillclimb-four/rack.yaml')).value;
  const listOf = (asCut: string) => {
    const { value: job } = readJob(`${jobText}\n${asCut}\n`);
    if (!job || !rack) throw new Error('unreadable');
    const all = [...linesByHand(job)].map(([id, line]) => ({
      id,
      line,
      rows: job.primaries?.byHand[id] ?? [],
    }));
    const list = planPieces(job, all, rack, { solve }).value;
    if (!list) throw new Error('no plan');
    return list;
  };
  const plain = listOf('');
  const seen = { longer: 0, left: 0 };
  for (const [id, off] of [
    ['P1-1', -2],
    ['P2-1', -0.5],
    ['P2-1', 0.5],
    ['P3-1', 0.5],
    ['P3-1', -0.5],
    ['P1-1', 0.5],
    ['P1-1', -0.5],
    ['P1-1', 2],
    ['P2-1', -2],
    ['P2-1', 2],
    ['P3-1', -2],
    ['P3-1', 2],
  ] as const) {
    // prettier-ignore
    const bend = plain.pieces.find((piece) => piece.id === id);
    if (bend?.kind !== 'bend') throw new Error(id);
    const list = listOf(`as_cut: { ${id}: { angle: ${(bend.angle * 180) / Math.PI + off} } }`);
    for (const piece of list.pieces) {
      const before = plain.pieces.find((one) => one.id === piece.id);
      if (piece.kind !== 'bend' || before?.kind !== 'bend' || piece.asCut?.startsWith('re-cut') !== true)
        continue;
      const longer = piece.legUp + piece.legDown - before.legUp - before.legDown;
      if (Math.abs(longer) < 0.05) continue;
      if (longer > 0) seen.longer++;
      const end = piece.end === 'B' ? 1 : 0;
      // On paper: raw leg = trim + leg, and a mark from the sawn end = leg + arc.
      expect((piece.trim[end] ?? NaN) + longer).toBeCloseTo(before.trim[end] ?? NaN, 9);
      expect(piece.marks).toHaveLength(before.marks.length);
      piece.marks.forEach((mark, i) => {
        for (const side of ['outside', 'inside'] as const)
          expect((mark.fromSawnEnd?.[side] ?? NaN) - longer).toBeCloseTo(before.marks[i]?.fromSawnEnd?.[side] ?? NaN, 9); // prettier-ignore
      });
      const leftOf = ({ leftovers }: typeof plain): number =>
        leftovers.reduce((sum, one) => sum + (one.kind === 'straight' && one.stock === piece.stock ? one.length : 0), 0); // prettier-ignore
      if (leftOf(plain) === 0) continue;
      seen.left++;
      // What is sawn shorter is not counted back.
      const least = leftOf(plain) - Math.max(0, longer);
      expect(leftOf(list)).toBeCloseTo(least >= 20 ? least : 0, 9);
    }
  }
  expect(seen.longer).toBeGreaterThan(0);
  expect(seen.left).toBeGreaterThan(0);
});

it('a last straight is never cut shorter than its slip joint takes', () => {
  const { value: job } = readJob(jobText);
  const rack = readRack(text('hillclimb-four/rack.yaml')).value;
  if (!job || !rack) throw new Error('unreadable');
  const all = [...linesByHand(job)].map(([id, line]) => ({
    id,
    line,
    rows: job.primaries?.byHand[id] ?? [],
  }));
  const list = planPieces(job, all, rack).value;
  if (!list) throw new Error('no plan');
  const lowOf = (slip: number): number | undefined =>
    freeMeasures(list, 'P1', { saw: rack.saw, leastInsert: 20, leastInsideArc: 12, slip }).find(
      ({ piece }) => piece === 'P1-3',
    )?.low;
  // P1-3 is the whole of P1's last straight.
  expect(lowOf(0)).toBe(20);
  expect(lowOf(45)).toBeCloseTo(45, 9);
});

describe('corrections that do not fit', () => {
  it.each([
    ['as_cut: { P9-1: scrap }', 'as_cut.P9-1', /no piece P9-1/],
    ['as_cut: { P1-3: { angle: 30 } }', 'as_cut.P1-3.angle', /is a straight and has no angle; it has length/],
    ['as_cut: { P1-1: { length: 30 } }', 'as_cut.P1-1.length', /is a bend and has no length/],
    ['as_cut: { P1-1: {} }', 'as_cut.P1-1', /0 measures/],
  ])('%s is told at its key', (asCut, path, what) => {
    const { record, problems } = plan(asCut);
    expect(record).toBeUndefined();
    expect(problems.map(({ code }) => code)).toEqual(['pieces/as-cut']);
    expect(problems[0]?.place?.path).toBe(path);
    expect(problems[0]?.what).toMatch(what);
    expect(problems[0]?.fix).toMatch(/\d/);
  });

  it.each([
    'as_cut: { P1-1: { angle: 0.01 } }',
    'as_cut: { P1-1: { angle: 200 } }',
    'as_cut: { P1-1: { leg_up: -3 } }',
    'as_cut: { P1-1: spoilt }',
  ])('%s is refused where it enters', (asCut) => {
    const { record, problems } = plan(asCut);
    expect(record).toBeUndefined();
    expect(problems[0]?.code).toMatch(/^job\//);
    expect(problems[0]?.place?.path).toMatch(/^as_cut\.P1-1/);
  });
});

describe('what can still be chosen right at a leaning flange', () => {
  it('an insert is never made so short that less than 20 mm are left on the short side of its cut', () => {
    // 42.4 / 2 x tan 12 deg = 4.506; in a socket of 5 as much more.
    const elbows = rackOf([{ clr: 63.6, angle: Math.PI / 2, legs: [0, 0], price: 9 }]);
    const rules = cuttingRules(elbows);
    const lean = (12 * Math.PI) / 180;
    const rows = [{ straight: 30 }, { clr: 63.6, angle: 1.2, clock: 1 }, { straight: 90 }];
    for (const intoFlange of [0, 5]) {
      const oblique = 21.2 * Math.tan(lean);
      const primary = { id: 'P1', path: 'P1', rows, noWeld: [], intoFlange, oblique, slip: 0 };
      const { chosen } = chooseStock([primary], rules, undefined);
      if (!chosen) throw new Error('no plan');
      const list = layOut(chosen, rules, elbows.tube, () => ({ face: { lean, toward: 0 }, collectorWeld: false })); // prettier-ignore
      const free = freeMeasures(list, 'P1', {
        saw: elbows.saw,
        slip: 0,
        leastInsert: 20,
        leastInsideArc: 12,
      });
      const first = free.find(({ piece, key }) => piece === 'P1-1' && key === 'length');
      expect(first?.planned).toBeCloseTo(30 + intoFlange, 9);
      expect(first?.low).toBeCloseTo(24.506 + intoFlange, 3);
    }
  });
});
