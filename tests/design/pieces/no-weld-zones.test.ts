import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { cutFigures } from '../../../src/design/pieces/cut-figures.js';
import { noWeldZones, type NoWeldZone } from '../../../src/design/pieces/no-weld-zones.js';
import { designCradles } from '../../../src/design/cradles.js';
import { planPieces } from '../../../src/design/pieces/plan-pieces.js';
import { cutListRecord } from '../../../src/design/pieces/record.js';
import { centreLineOf } from '../../../src/geom/centre-line.js';
import { rackOf } from '../../support/trial-pieces.js';
import { linesByHand } from '../../../src/design/routes-by-hand.js';
import { readJob, readRack } from '../../../src/job/index.js';
import { march, type Row, type V } from '../../support/plain-march.js';

/** One port, its tube straight out past a stud at its right. */
const job = (more = '', stud = '[45, 0]'): string => `
job: zones
ports: { shape: { circle: { diameter: 36 } }, row: { count: 1 } }
studs: { thread: M8, at: [${stud}, [-80, 0]] }
flange: { thickness: 10 }
tube: { od: 42.4, wall: 1.6 }
rack: rack.yaml
wrench: { tool: socket }
primaries: { by_hand: { P1: [{ straight: 400 }] } }
${more}`;

function zonesOf(text: string) {
  const { value, problems } = readJob(text);
  if (!value) throw new Error(JSON.stringify(problems));
  const line = linesByHand(value).get('P1');
  if (!line) throw new Error('no line');
  return noWeldZones(value, 'P1', line);
}

const fixture = (at: string): string =>
  `tack_fixture: { base: { at: [0, -100, 0], normal: [0, 1, 0] }, cradle: { width: 20, at: ${at} } }`;

const demo = (name: string): string =>
  readFileSync(new URL(`../../../fixtures/${name}`, import.meta.url), 'utf8');

describe('where a primary is not welded', () => {
  it("beside a stud, along all of the socket's room, where a bead would stand in it", () => {
    // Room of a socket for M8: 22 mm and 3 more (column G of a table of wrench spaces), so 12.5 from the stud's
    // axis; 45 - 12.5 - 42.4 / 2 = 11.3 mm from the tube. It reaches 110 mm out: common practice, no source.
    expect(zonesOf(job())).toEqual([]);
    expect(zonesOf(job('shop: { weld_off_wrench: 11.29 }'))).toEqual([]);
    const [zone, ...others] = zonesOf(job('shop: { weld_off_wrench: 11.31 }'));
    expect(others).toEqual([]);
    expect(zone).toMatchObject({ from: 0, what: 'wrench space of stud 1', path: 'studs.at.0' });
    // The ball about the ring reaches past the room's end: sqrt(32.51^2 - 32.5^2) = 0.8 mm.
    expect(zone?.to).toBeCloseTo(110 + Math.sqrt(32.51 ** 2 - 32.5 ** 2), 4);
  });

  it('under a cradle whose place the job gives, and not where the program places them', () => {
    const given = zonesOf(job(fixture('[{ primary: P1, station: 200 }]')));
    // A level tube: half the width each way.
    expect(given).toEqual([
      { from: 190, to: 210, what: 'a cradle at 200', path: 'tack_fixture.cradle.at.0' },
    ]);
    expect(zonesOf(job(fixture('auto')))).toEqual([]);
    expect(zonesOf(job())).toEqual([]);
  });

  it('by-hand-four, every 0.02 mm of a march of its own against cylinders written out: the same stretches', () => {
    const text = demo('by-hand-four/job.yaml');
    const { value } = readJob(text, { set: ['shop.weld_off_wrench=5'] });
    if (!value) throw new Error('did not read');
    const written = parse(text) as { primaries: { by_hand: Record<string, Row[]> } };
    const down = (12 * Math.PI) / 180;
    let seen = 0;
    for (const [p, [id, line]] of [...linesByHand(value)].entries()) {
      const zones = noWeldZones(value, id, line).filter(({ what }) => what.startsWith('wrench'));
      const flow: V = [0, -Math.sin(down), Math.cos(down)];
      const { stations } = march([92 * p, 0, 10], flow, [0, 1, 0], written.primaries.by_hand[id] ?? [], 0.02);
      for (const { p: at, s } of stations) {
        const near = [0, 1, 2, 3].some((i) =>
          [
            [92 * i - 36, 22],
            [92 * i + 36, -22],
          ].some(([x = 0, y = 0]) => {
            const aside = Math.max(0, Math.hypot(at[0] - x, at[1] - y) - 12.5);
            const along = Math.max(0, 10 - at[2], at[2] - 120);
            return Math.hypot(aside, along) < 21.2 + 5;
          }),
        );
        const edge = Math.min(
          Infinity,
          ...zones.flatMap(({ from, to }) => [Math.abs(s - from), Math.abs(s - to)]),
        );
        if (edge < 0.01) continue;
        if (near) seen++;
        expect(
          zones.some(({ from, to }) => from < s && s < to),
          `${id} at ${s}`,
        ).toBe(near);
      }
    }
    expect(seen).toBeGreaterThan(1000);
  });
});

describe('what is added to a part that stands already', () => {
  it('zones, cradles and welds count from the flange as the job does: a weld out of the saddle at 280, near its heat', () => {
    // 150 mm stand, 250 are added from sticks of 134: one weld, 116 to 134 from the joint, 266 to 284 from the
    // flange. The saddle of 20 mm at 280 leaves 266 to 270.
    const read = readJob(job(fixture('[{ primary: P1, station: 280 }]'))).value;
    const whole = read && linesByHand(read).get('P1');
    if (!read || !whole) throw new Error('did not read');
    const built = { ...read, builtParts: { P1: { length: 150 } } };
    const rows = [{ straight: 250 }];
    const line = centreLineOf({ ...whole.start, at: whole.poseAt(150).at }, rows);
    const zones = noWeldZones(built, 'P1', line);
    expect(zones.map(({ from, to, what }) => [from, to, what])).toEqual([[120, 140, 'a cradle at 280']]);
    // One on what stands is none of the tail's.
    const before = readJob(job(fixture('[{ primary: P1, station: 100 }]'))).value;
    expect(before && noWeldZones({ ...before, builtParts: { P1: { length: 150 } } }, 'P1', line)).toEqual([]);
    const stock = rackOf([{ clr: 63.6, angle: Math.PI, legs: [100, 100], price: 9 }], [{ length: 140, price: 3 }]); // prettier-ignore
    const noWeld = zones.map(({ from, to }) => [from, to] as const);
    const route = { id: 'P1', line, rows, zones, noWeld };
    const list = planPieces(built, [route], stock).value;
    const cradles = designCradles(read, new Map([['P1', whole]])).value;
    if (!list || !cradles) throw new Error('no plan');
    const { welds } = cutListRecord(list) as { welds: { at: number; kind: string }[] };
    expect(welds.map(({ kind }) => kind)).toEqual(['straight', 'straight']);
    expect(welds[0]?.at).toBe(150);
    expect(welds[1]?.at).toBeGreaterThanOrEqual(266 - 1e-6);
    expect(welds[1]?.at).toBeLessThanOrEqual(270 + 1e-6);
    const figures = cutFigures(built, stock, [route], list, cradles);
    expect(figures.zones[0]?.zones.map(({ from, to }) => [from, to])).toEqual([[270, 290]]);
    // Half the saddle, 10, lies between the cradle's place and its edge. The joint is 120 mm off it.
    expect(figures.nearHeat.map(({ at }) => at)).toEqual([welds[1]?.at]);
    expect(figures.nearHeat[0]?.room).toBeCloseTo(280 - 10 - (welds[1]?.at ?? 0), 6);
    // The same tube and cradle, with the joint taken for its start: what it is held by stands at 130 there.
    const alone = cutFigures(read, stock, [route], { ...list, begins: {} }, cradles.map((one) => ({ ...one, station: 130 }))); // prettier-ignore
    expect(figures.miss[0]?.held).toBeCloseTo(alone.miss[0]?.held ?? NaN, 9);
    expect(figures.miss[0]?.held).toBeLessThan(figures.miss[0]?.hand.rms ?? 0);
  });
});

describe('a plan that keeps off them', () => {
  const rack = readRack(demo('hillclimb-four/rack.yaml')).value;

  function planOf(set: readonly string[], also: (id: string) => readonly NoWeldZone[] = () => []) {
    const { value } = readJob(demo('by-hand-four/job.yaml'), { set: [...set] });
    if (!value || !rack) throw new Error('did not read');
    const routes = [...linesByHand(value)].map(([id, line]) => {
      const zones = [...noWeldZones(value, id, line), ...also(id)];
      const noWeld = zones.map(({ from, to }) => [from, to] as const);
      return { id, line, rows: value.primaries?.byHand[id] ?? [], zones, noWeld };
    });
    const list = planPieces(value, routes, rack).value;
    if (!list) throw new Error('no plan');
    return { list, routes, figures: cutFigures(value, rack, routes, list, []) };
  }

  it('by-hand-four keeps the 13 welds it has without zones, each of them outside all zones', () => {
    const { list, routes, figures } = planOf([]);
    expect(list.totals.welds).toBe(13);
    expect(figures.zones.map(({ more }) => more)).toEqual([0, 0, 0, 0]);
    expect(routes.flatMap(({ zones }) => zones).length).toBe(9);
    for (const { primary, at, kind } of list.welds)
      for (const { from, to } of routes.find(({ id }) => id === primary)?.zones ?? [])
        expect(kind === 'flange' || at <= from + 1e-6 || at >= to - 1e-6, `${primary} at ${at}`).toBe(true);
  });

  it('a zone over the end of an arc costs a weld more, and that is told with its primary', () => {
    // P2 on paper: 83, an arc to 202.1, 73.2, an arc to 345.5, 269.5. Each bend keeps its leg upstream, so the last
    // weld stands at 345.5. Where it may not, the second bend keeps a leg behind it instead, the first one the
    // straight between, and the stub becomes an insert: 4 welds for 3.
    const rail = { from: 340, to: 350, what: 'a rail', path: 'rail' };
    const { list, figures } = planOf([], (id) => (id === 'P2' ? [rail] : []));
    expect(list.welds.filter(({ primary }) => primary === 'P2')).toHaveLength(4);
    expect(list.totals.welds).toBe(14);
    expect(figures.zones.map(({ more }) => more)).toEqual([0, 1, 0, 0]);
  });
});
