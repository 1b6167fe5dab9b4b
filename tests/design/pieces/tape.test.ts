import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { openSolver } from '../../../src/build/solver.js';
import { degrees, radians } from '../../../src/base/numbers.js';
import { randomFrom } from '../../../src/base/random.js';
import { tapeEffect, worstBend, type TapeEffect } from '../../../src/design/pieces/as-marked.js';
import { chooseStock } from '../../../src/design/pieces/choose-stock.js';
import type { CutList, PieceRow } from '../../../src/design/pieces/cut-list.js';
import { layOut } from '../../../src/design/pieces/lay-out.js';
import type { Solve } from '../../../src/design/pieces/linear-program.js';
import { arcMark } from '../../../src/design/pieces/marks.js';
import { planPieces } from '../../../src/design/pieces/plan-pieces.js';
import { cuttingRules } from '../../../src/design/pieces/rules.js';
import { faceThrough, tapeMarks } from '../../../src/design/pieces/tape-marks.js';
import { linesByHand } from '../../../src/design/routes-by-hand.js';
import { piecesCsv } from '../../../src/files/pieces-csv.js';
import { tapeCell } from '../../../src/files/tape-cell.js';
import type { CentreLineRow } from '../../../src/geom/centre-line.js';
import { readJob, readRack } from '../../../src/job/index.js';
import {
  cross,
  dot,
  far,
  march,
  plus,
  size,
  squared,
  unit,
  type Row,
  type V,
} from '../../support/plain-march.js';
import { randomRack, randomRows } from '../../support/trial-pieces.js';

let solve: Solve;
beforeAll(async () => {
  solve = await openSolver();
});

const OD = 42.4;
const mm = (step: number) => ({ step, unit: 'mm' as const });

/* A second way: only what stands in the table for the bench, read as its columns are headed. */

type Line = Readonly<Record<string, string>>;
function linesOf(csv: string): Line[] {
  const [heads = [], ...rows] = csv
    .trim()
    .split('\r\n')
    .map((line) => line.split(','));
  return rows.map((row) => Object.fromEntries(heads.map((head, i) => [head, row[i] ?? ''])));
}
const number = (line: Line, head: string): number | undefined => {
  if (!(head in line)) throw new Error(`no column ${head}`);
  return line[head] === '' ? undefined : Number(line[head]);
};

type Point = readonly [x: number, y: number];
/** A face across the tube: a point of its axis, and the angle of the tube there. In the plane of a bend. */
interface Face {
  at: Point;
  angle: number;
}

/**
 * The face through two marks, at these angles round the bend's centre (0, clr) from a tangent point at (0, 0):
 * square to the line through them, and where that line crosses the circle of the centre line, by halving.
 */
function faceOn(clr: number, outer: number, inner: number): Face {
  const on = (r: number, a: number): Point => [r * Math.sin(a), clr - r * Math.cos(a)];
  const [p, q] = [on(clr + OD / 2, outer), on(clr - OD / 2, inner)];
  const angle = Math.atan2(p[0] - q[0], q[1] - p[1]);
  const beyond = (a: number): number => {
    const c = on(clr, a);
    return (c[0] - q[0]) * Math.cos(angle) + (c[1] - q[1]) * Math.sin(angle);
  };
  let [low, high] = [angle - 0.2, angle + 0.2];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (beyond(middle) < 0) low = middle;
    else high = middle;
  }
  return { at: on(clr, low), angle };
}

/** Where a primary ends that is cut and turned as its lines say. */
function endByTable(
  lines: readonly Line[],
  stockAngles: ReadonlyMap<string, number>,
  start: Start,
  into: number,
) {
  let flow = unit(start.direction);
  let toward = squared(start.reference, flow);
  let at = plus(start.at, flow, -into);
  const names = [...new Set(lines.map((line) => line.piece ?? ''))];
  names.forEach((name, i) => {
    const own = lines.filter((line) => line.piece === name);
    const [line = {}] = own;
    const lean = i === 0 ? (number(line, 'first cut leans deg') ?? 0) : 0;
    const taken = (OD / 2) * Math.tan(radians(lean));
    const square = number(line, 'saw square: length mm');
    if (square !== undefined) {
      at = plus(at, flow, square - taken);
      return;
    }
    const clr = number(line, 'CLR mm') ?? 0;
    const legUp = number(line, 'saw square: leg up mm');
    const legDown = number(line, 'saw square: leg down mm');
    const polar = (cut: Line, leg: number | undefined): readonly [number, number] => {
      const from = leg === undefined ? 'tangent point' : 'end sawn square';
      const marks = (['outside', 'inside'] as const).map(
        (side) => (number(cut, `cut: ${side} mm from ${from}`) ?? NaN) - (leg ?? 0),
      );
      return [(marks[0] ?? NaN) / (clr + OD / 2), (marks[1] ?? NaN) / (clr - OD / 2)];
    };
    // Upstream and downstream face in the plane of the bend, its turn toward +y.
    let up: Face = { at: [-(legUp ?? 0) + taken, 0], angle: 0 };
    let down: Face;
    if (line['cut: from end'] === '') {
      const angle = radians(number(line, 'angle deg') ?? NaN);
      const [c, s] = [Math.cos(angle), Math.sin(angle)];
      const leg = legDown ?? 0;
      down = { at: [clr * s + leg * c, clr - clr * c + leg * s], angle };
    } else if (own.length === 1) {
      const face = faceOn(clr, ...polar(line, legUp ?? legDown));
      if (legUp !== undefined) down = face;
      else {
        // Seen from its leg the piece lies the other way round: turn it over, left for right.
        const turn = face.angle;
        up = { at: [-face.at[0], face.at[1]], angle: -turn };
        down = { at: [legDown ?? NaN, 0], angle: 0 };
      }
    } else {
      const whole = stockAngles.get(line.stock ?? '') ?? NaN;
      const [a, b] = own.map((cut) => {
        const marks = polar(cut, undefined);
        return cut['cut: from end'] === 'A' ? marks : ([whole - marks[0], whole - marks[1]] as const);
      });
      [up, down] = [faceOn(clr, ...(a ?? [NaN, NaN])), faceOn(clr, ...(b ?? [NaN, NaN]))];
    }
    const turn = (number(line, 'clock mark mm round the tube') ?? NaN) / (OD / 2);
    const side = plus(plus([0, 0, 0], toward, Math.cos(turn)), cross(flow, toward), Math.sin(turn));
    const [x, y] = [down.at[0] - up.at[0], down.at[1] - up.at[1]];
    const [c, s] = [Math.cos(up.angle), Math.sin(up.angle)];
    at = plus(plus(at, flow, x * c + y * s), side, y * c - x * s);
    const angle = down.angle - up.angle;
    [flow, toward] = [
      plus(plus([0, 0, 0], flow, Math.cos(angle)), side, Math.sin(angle)),
      plus(plus([0, 0, 0], side, Math.cos(angle)), flow, -Math.sin(angle)),
    ];
  });
  return { at, flow };
}

interface Start {
  at: V;
  direction: V;
  reference: V;
}

const inDegrees = (rows: readonly CentreLineRow[]): Row[] =>
  rows.map((row) =>
    'straight' in row ? row : { clr: row.clr, angle: degrees(row.angle), clock: degrees(row.clock) },
  );
const stockAngles = (list: CutList): ReadonlyMap<string, number> =>
  new Map(list.stock.flatMap((item) => (item.kind === 'bend' ? [[item.id, item.angle] as const] : [])));

/** How far the end by the table stands from the end of the route. */
function missByTable(list: CutList, id: string, csv: string, start: Start, rows: readonly CentreLineRow[]) {
  const lines = linesOf(csv).filter((line) => line.piece?.startsWith(`${id}-`));
  const into = list.pieces.find(({ primary }) => primary === id)?.intoFlange ?? 0;
  const made = endByTable(lines, stockAngles(list), start, into);
  const { end } = march(start.at, start.direction, start.reference, inDegrees(rows), 5);
  return {
    distance: far(made.at, end.at),
    angle: Math.atan2(size(cross(made.flow, end.flow)), dot(made.flow, end.flow)),
  };
}

const told = (list: CutList, id: string, start: Start, step: number): TapeEffect =>
  tapeEffect(
    id,
    list.pieces.filter(({ primary }) => primary === id),
    { at: start.at, direction: start.direction, clockReference: start.reference },
    OD,
    step,
  );

const text = (path: string): string =>
  readFileSync(new URL(`../../../fixtures/${path}`, import.meta.url), 'utf8');

function demo() {
  const job = readJob(text('by-hand-four/job.yaml')).value;
  const rack = readRack(text('hillclimb-four/rack.yaml')).value;
  if (!job || !rack) throw new Error('the demo did not read');
  const rows = job.primaries?.byHand ?? {};
  const routes = [...linesByHand(job)].map(([id, line]) => ({ id, line, rows: rows[id] ?? [] }));
  const { value } = planPieces(job, routes, rack, { solve });
  if (!value) throw new Error('no plan');
  const down = radians(12);
  const starts = routes.map(({ id }, i): readonly [string, Start] => [
    id,
    { at: [92 * i, 0, 10], direction: [0, -Math.sin(down), Math.cos(down)], reference: [0, 1, 0] },
  ]);
  return { list: value, rows, starts };
}

describe('the demo set out with a tape', () => {
  it.each([0.5, 1, 0.25])('divided in %d mm: the end by the table alone is as far off as is told', (step) => {
    const { list, rows, starts } = demo();
    const csv = piecesCsv(list, mm(step));
    for (const [id, start] of starts) {
      const found = missByTable(list, id, csv, start, rows[id] ?? []);
      const { miss } = told(list, id, start, step);
      // A face that lies short of its arc counts here on its tangent: t2 / 2 CLR, 3 um for half a mm.
      expect(Math.abs(miss.distance - found.distance), id).toBeLessThan(step * 0.01);
      expect(degrees(miss.angle), id).toBeCloseTo(degrees(found.angle), 3);
      expect(found.distance).toBeGreaterThan(0.01);
    }
    // Every length to be set out lies on the tape.
    for (const line of linesOf(csv))
      for (const [head, cell] of Object.entries(line))
        if (/mm/.test(head) && head !== 'CLR mm' && cell !== '')
          expect(Math.abs(Number(cell) / step - Math.round(Number(cell) / step)), `${head} ${cell}`).toBeLessThan(1e-6); // prettier-ignore
  });

  it('not rounded, nothing is off, and the table has what the record has', () => {
    const { list, rows, starts } = demo();
    const csv = piecesCsv(list, mm(0));
    for (const [id, start] of starts) {
      const { miss, missByDegrees, pieces } = told(list, id, start, 0);
      // Each piece comes out as the record has it: legs on the axis, without what an oblique cut takes.
      for (const { piece: name, length, bend } of pieces) {
        const planned = list.pieces.find((piece) => piece.id === name);
        if (planned?.kind !== 'bend') expect(length).toBeCloseTo(planned?.length ?? NaN, 9);
        else
          (['angle', 'legUp', 'legDown', 'clock'] as const).forEach((key) =>
            expect(bend?.[key], `${name} ${key}`).toBeCloseTo(planned[key], 9),
          );
      }
      expect([miss.distance, miss.angle, missByDegrees.distance]).toEqual([0, 0, 0]);
      // The table's own three decimals swing the end by a few hundredths.
      expect(missByTable(list, id, csv, start, rows[id] ?? []).distance).toBeLessThan(0.05);
    }
    for (const piece of list.pieces) {
      const line = linesOf(csv).find((one) => one.piece === piece.id) ?? {};
      expect(number(line, 'length mm')).toBeCloseTo(piece.length, 3);
      if (piece.kind === 'bend') expect(number(line, 'clock mark mm round the tube')).toBeCloseTo(piece.clockMark, 3); // prettier-ignore
    }
  });

  it('the leg to saw square holds what the oblique cut takes: 4.506 mm at 12 deg, and no more elsewhere', () => {
    const { list } = demo();
    for (const line of linesOf(piecesCsv(list, mm(0)))) {
      const taken = number(line, 'first cut leans deg') === undefined ? 0 : 4.506;
      const leg = number(line, 'leg up mm') ?? 0;
      if (leg > 0) expect((number(line, 'saw square: leg up mm') ?? 0) - leg).toBeCloseTo(taken, 2);
      if (line['stock end'] === '')
        expect((number(line, 'saw square: length mm') ?? 0) - (number(line, 'length mm') ?? 0)).toBeCloseTo(
          taken,
          2,
        );
    }
    // What is kept and what comes off are the raw leg, 100 mm on this rack, also where both are rounded.
    const legs = linesOf(piecesCsv(list, mm(0.5))).flatMap((line) => {
      const kept = number(line, 'saw square: leg up mm') ?? number(line, 'saw square: leg down mm');
      const off = number(line, 'off raw leg A mm') ?? number(line, 'off raw leg B mm');
      return kept === undefined ? [] : [kept + (off ?? NaN)];
    });
    expect(legs.length).toBeGreaterThan(7);
    for (const leg of legs) expect(leg).toBeCloseTo(100, 9);
  });

  it('turned by the degrees only lengths and faces are off: as by the table with its clock marks exact', () => {
    const { list, rows, starts } = demo();
    const exact = linesOf(piecesCsv(list, mm(0)));
    const [heads = '', ...lines] = piecesCsv(list, mm(0.5)).trim().split('\r\n');
    const column = heads.split(',').indexOf('clock mark mm round the tube');
    const csv = [heads, ...lines.map((line, i) => line.split(',').map((cell, at) => (at === column ? (exact[i]?.['clock mark mm round the tube'] ?? '') : cell)).join(','))].join('\r\n'); // prettier-ignore
    for (const [id, start] of starts) {
      const { missByDegrees, miss } = told(list, id, start, 0.5);
      const found = missByTable(list, id, csv, start, rows[id] ?? []);
      expect(missByDegrees.distance, id).toBeCloseTo(found.distance, 1);
      expect(miss.distance, id).not.toBeCloseTo(missByDegrees.distance, 1);
    }
  });

  it('what was entered as cut measures as it is', () => {
    const { list, starts } = demo();
    const [first] = starts;
    const pieces = list.pieces.map((piece): PieceRow => ({ ...piece, asCut: 'as cut' }));
    expect(told({ ...list, pieces }, 'P1', first?.[1] as Start, 1).miss).toEqual({ distance: 0, angle: 0 });
  });
});

describe('random headers', () => {
  it('60 on random racks, with pieces out of the middle, whole and reversed: as far off as is told', () => {
    const random = randomFrom(23);
    const start: Start = { at: [0, 0, 0], direction: [0, 0, 1], reference: [0, 1, 0] };
    const seen = new Map<string, number>();
    for (let i = 0; i < 60; i++) {
      const rack = randomRack(random);
      const rules = cuttingRules(rack);
      const rows = randomRows(random, rack);
      const lean = radians(i % 3 === 0 ? random.whole(3, 25) : 0);
      const oblique = (OD / 2) * Math.tan(lean);
      const intoFlange = i % 4 === 0 ? 5 : 0;
      const primary = { id: 'P1', path: 'P1', rows, noWeld: [], intoFlange, oblique, slip: 0 };
      const { chosen } = chooseStock([primary], rules, undefined);
      if (!chosen) continue;
      const face = lean > 0 ? { lean, toward: 1 } : undefined;
      const list = layOut(chosen, rules, rack.tube, () => ({ face, collectorWeld: false }));
      for (const piece of list.pieces) {
        const kind = piece.kind === 'straight' ? 'straight' : `${piece.end} ${String(piece.reversed)}`;
        seen.set(kind, (seen.get(kind) ?? 0) + 1);
      }
      const found = missByTable(list, 'P1', piecesCsv(list, mm(0.5)), start, rows);
      const { miss } = told(list, 'P1', start, 0.5);
      expect(miss.distance, JSON.stringify({ i, rows })).toBeCloseTo(found.distance, 1);
      expect(degrees(miss.angle), `case ${i}`).toBeCloseTo(degrees(found.angle), 2);
    }
    for (const kind of ['straight', 'A false', 'B true', 'A true', 'B false', 'middle false', 'whole false'])
      expect(seen.get(kind) ?? 0, kind).toBeGreaterThan(2);
  });
});

describe('one cut in an arc', () => {
  it('on paper: 60.5 deg at CLR 42.4 is 67.157 outside and 22.386 inside; 67.5 and 22.5 stand radial at 60.81 deg', () => {
    const mark = arcMark({ clr: 42.4, od: OD, angle: radians(60.5), from: 'A' }, 30);
    expect([mark.outside, mark.inside].map((x) => x.toFixed(3))).toEqual(['67.157', '22.386']);
    const face = faceThrough(67.5, 22.5, 42.4, OD);
    // 67.5 / 63.6 = 22.5 / 21.2 = 1.06132 rad.
    expect(degrees(face.angle)).toBeCloseTo(60.809, 3);
    expect(face.shift).toBeCloseTo(0, 9);
    // One mark 0.3 mm on turns the face by 0.3 / 42.4 rad, as both turn about each other's end.
    const one = faceThrough(67.8, 22.5, 42.4, OD);
    expect(one.angle - face.angle).toBeCloseTo(0.3 / OD, 4);
  });

  it('the pair turns a face by no more than half a division over the tube: 0.25 / 42.4 is 0.34 deg', () => {
    const random = randomFrom(3);
    let nearestIsWorse = 0;
    for (let i = 0; i < 1000; i++) {
      const [clr, angle] = [random.pick([42.4, 63.6, 84.8]), radians(random.between(5, 175))];
      const mark = arcMark({ clr, od: OD, angle, from: 'A' }, 50);
      const piece = { kind: 'bend', clr, angle, legUp: 50, legDown: 0, marks: [mark], trim: [50, undefined], end: 'A', reversed: false, length: 1, clockMark: 0, face: undefined } as unknown as PieceRow; // prettier-ignore
      const [set] = tapeMarks(piece, OD, 0.5).marks;
      if (!set?.fromSawnEnd) throw new Error('no mark');
      const off = faceThrough(set.outside, set.inside, clr, OD).angle - angle;
      expect(Math.abs(degrees(off))).toBeLessThan(degrees(0.25 / OD) + 0.03);
      expect([set.outside - mark.outside, set.inside - mark.inside].every((x) => Math.abs(x) < 0.5)).toBe(
        true,
      );
      expect([set.fromSawnEnd.outside - set.outside, set.fromSawnEnd.inside - set.inside]).toEqual([50, 50]);
      const round = (x: number): number => Math.round(2 * x) / 2;
      const plain = faceThrough(round(mark.outside), round(mark.inside), clr, OD).angle - angle;
      if (Math.abs(plain) > Math.abs(off) + 1e-9) nearestIsWorse++;
    }
    expect(nearestIsWorse).toBeGreaterThan(100);
  });

  it('the bend told as furthest off is the one whose angle is', () => {
    const { list, starts } = demo();
    const [id, start] = starts[0] as readonly [string, Start];
    const effect = told(list, id, start, 0.5);
    const offs = effect.pieces.map(({ bend }) => Math.abs(bend?.angleOff ?? 0));
    expect(Math.abs(worstBend(effect)?.off ?? NaN)).toBe(Math.max(...offs));
    expect(worstBend(told(list, id, start, 0))).toBe(undefined);
  });
});

describe('a length as the tape shows it', () => {
  const inch = (step: number) => ({ step: 25.4 / step, unit: 'in' as const });
  it.each([
    [25.4 * 3.3125, 64, '3 5/16'],
    [(25.4 * 31) / 64, 64, '0 31/64'],
    [25.4 * 2, 32, '2'],
    [(-25.4 * 17) / 32, 32, '-0 17/32'],
    [0, 64, '0'],
    [25.4 * 1.3, 64, '1.3'],
    [25.4 * 1.3, 10, '1.3'],
  ])('%d mm on a tape of 1/%d in is %s', (length, step, shown) => {
    expect(tapeCell(length, inch(step))).toBe(shown);
  });

  it('mm stay numbers; an inch tape heads its columns in inches', () => {
    expect(tapeCell(12.5, mm(0.5))).toBe(12.5);
    const { list } = demo();
    const csv = piecesCsv(list, inch(64));
    const [heads = ''] = csv.split('\r\n');
    expect(heads).toContain('clock mark in round the tube');
    expect(heads).not.toMatch(/\bmm\b/);
    // Each cell read back as whole inches and a fraction is within half a 64th of the exact one.
    const exact = linesOf(piecesCsv(list, mm(0)));
    linesOf(csv).forEach((line, i) => {
      const [whole = '0', part = '0/1'] = (line['length in'] ?? '').split(' ');
      const [over = 0, under = 1] = part.split('/').map(Number);
      const length = number(exact[i] ?? {}, 'length mm') ?? NaN;
      expect(Math.abs((Number(whole) + over / under) * 25.4 - length)).toBeLessThan(25.4 / 128 + 0.001);
    });
  });
});
