import { describe, expect, it } from 'vitest';
import { servicePages } from '../../../src/base/codes/service.js';
import { orderOff, type Passages } from '../../../src/design/service/order.js';
import type { Mover } from '../../../src/design/service/movers.js';
import { fitted, oneTube } from './service-jobs.js';

/** Two ports that look different ways, as on a V-twin: one straight out, one out and to the left. */
const twoFaces = (joint: string): string => `
job: two-faces
ports:
  shape: { circle: { diameter: 36 } }
  each:
    - { at: [0, 0, 0] }
    - { at: [-300, 0, 0], face: { normal: [-0.6, 0, 0.8] } }
studs: { thread: M8, beside_each_port: [[-36, 0], [36, 0]], stands: 26 }
flange: { thickness: 10, made_as: each }
tube: { od: 42.4, wall: 1.6, material: '304' }
primaries:
  stub: 20
  by_hand:
    P1: [{ straight: 40 }, { clr: 63.6, angle: 90, clock: 180 }, { straight: 200 }]
    P2: [{ straight: 40 }, { clr: 63.6, angle: 90, clock: 180 }, { straight: 200 }]
collector: { joint: ${joint}, at: [0, -263.6, 113.6], flow: [0, -1, 0], clocking: 0 }
`;

describe('plates on faces that look different ways', () => {
  it('cannot come off as one stiff header, and nothing but slip joints cures it', () => {
    const { service, problems } = fitted(twoFaces('welded'));
    expect(service.comesOff).toBe(false);
    expect(service.joined).toEqual([['P1'], ['P2']]);
    expect(problems.map(({ code }) => code)).toContain('service/faces-joined');
  });

  it('come off one by one, each square to its own face, once the collector is drawn off', () => {
    const { service } = fitted(twoFaces('slip'));
    const headers = service.steps.filter(({ kind }) => kind === 'header');
    expect(headers.map(({ name }) => name)).toEqual(['P1', 'P2']);
    expect(headers[1]?.way[0]).toBeCloseTo(-0.6, 9);
    expect(headers[1]?.way[2]).toBeCloseTo(0.8, 9);
    expect(service.steps[0]?.kind).toBe('collector');
  });
});

describe('the order of coming off', () => {
  /** Movers and who blocks whom; `fixed` never moves. */
  const order = (
    blockedBy: Record<string, string[]>,
    wanted: string[],
    after: Record<string, string[]> = {},
  ) => {
    const thing = (id: string) => ({ id, name: id, path: undefined, pieces: [] });
    const movers = Object.keys(blockedBy).map((id): Mover => ({
      ...thing(id),
      kind: 'neighbour',
      motions: [{ pieces: [], way: [1, 0, 0], distance: 10, margin: 1 }],
      after: after[id] ?? [],
    }));
    const measure: Passages = (mover, { id }) => [
      blockedBy[mover.id]?.includes(id) === true
        ? { gap: 0, nearest: id, reach: 4, overlaps: false }
        : { gap: 50, nearest: id, reach: undefined, overlaps: false },
    ];
    const things = [...Object.keys(blockedBy), 'fixed'].map(thing);
    return orderOff(movers, things, wanted, measure).map(
      ({ mover, blockers }) =>
        `${mover.id}${blockers.map((b) => ` !${b.thing} ${b.stays ?? ''} ${b.missing}`).join('')}`,
    );
  };

  it('takes off what blocks first, and leaves what blocks nothing', () => {
    expect(order({ header: ['a'], a: ['b'], b: [], c: [] }, ['header'])).toEqual(['b', 'a', 'header']);
  });

  it('goes by what must be off before, geometry or not', () => {
    expect(order({ header: [], nut: ['a'], a: [] }, ['header'], { header: ['nut'] })).toEqual([
      'a',
      'nut',
      'header',
    ]);
  });

  it('tells a fixed thing, and everything that hangs on it', () => {
    expect(order({ header: ['a'], a: ['fixed'] }, ['header'])).toEqual([
      'a !fixed  6',
      'header !a blocked 6',
    ]);
  });

  it('tells two that wait for each other', () => {
    expect(order({ header: ['a'], a: ['header'] }, ['header'])).toEqual([
      'a !header waits 6',
      'header !a blocked 6',
    ]);
  });

  it('agrees with trying every order, for 300 random sets of who blocks whom', () => {
    let seed = 77;
    const next = (): number => (seed = (seed * 48_271) % 2_147_483_647) / 2_147_483_647;
    const ids = ['header', 'a', 'b', 'c', 'd'];
    let possible = 0;
    for (let n = 0; n < 300; n++) {
      const blockedBy = Object.fromEntries(
        ids.map((id) => [
          id,
          [...ids, 'fixed'].filter((other) => other !== id && next() < (other === 'fixed' ? 0.1 : 0.25)),
        ]),
      );
      // Every way of taking things off one by one until the header is off; the fewest that were taken.
      const fewest = (off: string[]): number => {
        if (off.includes('header')) return off.length;
        const free = ids.filter(
          (id) => !off.includes(id) && blockedBy[id]?.every((b) => off.includes(b)) === true,
        );
        return Math.min(Infinity, ...free.map((id) => fewest([...off, id])));
      };
      const truth = fewest([]);
      const found = order(blockedBy, ['header']);
      const goes = found.every((step) => !step.includes('!'));
      expect(goes, JSON.stringify(blockedBy)).toBe(truth < Infinity);
      if (goes) expect(found.length).toBe(truth);
      if (goes) possible++;
    }
    expect(possible).toBeGreaterThan(60);
    expect(possible).toBeLessThan(280);
  });
});

it('every code of fitting is triggered by a job, and told with what, why, fix and a place', () => {
  const box = (from: number[], to: number[], more = ''): string =>
    `  - { name: block, clear: 0, box: { from: [${from.join(', ')}], to: [${to.join(', ')}] }${more} }\n`;
  const told = [
    fitted(twoFaces('welded')),
    fitted(oneTube(box([-100, -520, 60], [100, -460, 160]))),
    fitted(oneTube(box([-80, -160, 154.8], [80, -40, 200]))),
    fitted(oneTube(box([44, -30, 45], [90, 30, 60]))),
    fitted(
      oneTube(
        box([-15, -240, 20], [15, -180, 80], ', comes_out: left') + box([-40, -220, 40], [-20, -200, 60]),
      ),
    ),
    fitted(oneTube('  - { name: scan, clear: 0, mesh: scan.stl }\n')),
    fitted(oneTube('').replace('depth: 45', 'depth: 28')),
  ].flatMap(({ problems }) => problems);
  expect(new Set(told.map(({ code }) => code))).toEqual(new Set(Object.keys(servicePages)));
  for (const { what, why, fix, place, severity } of told) {
    for (const text of [what, why, fix]) expect(text).toMatch(/^\S.{15,}\S$/);
    expect(`${what}${fix}`).not.toMatch(/undefined|NaN|Infinity/);
    expect(place?.path).toMatch(/^(keep_outs|collector|studs)/);
    expect(severity).not.toBe('error');
  }
});

describe('growth when hot', () => {
  it('of 500 mm of 304 from 20 to 500 C is 4.32 mm (EN 10088-1: 18.0e-6 per K, from memory above 100 C)', () => {
    const straight = oneTube('', 'service: { hot: { primaries: 500, apart: 0, collector: 500 } }\n')
      .replace(/P1: .*/, 'P1: [{ straight: 500 }]')
      .replace('at: [0, -263.6, 113.6]', 'at: [0, 0, 510]')
      .replace('flow: [0, -1, 0]', 'flow: [0, 0, 1]');
    const { growth } = fitted(straight).service;
    expect(growth?.ends).toHaveLength(1);
    // The plate that it stands on, 10 mm of 304, grows as well: 16.25e-6 x 130.
    const end = 4.32 + 10 * 16.25e-6 * 130;
    expect(growth?.ends[0]?.along).toBeCloseTo(end, 6);
    // One tube runs ahead of no other; the collector, 160 mm of the same metal, comes back 160 x 0.00864.
    expect(growth?.apart).toBe(0);
    expect(growth?.gap).toBeCloseTo(3, 9);
    expect(growth?.gapHeld).toBeCloseTo(end + 160 * 0.00864 + 3, 6);
    expect(growth?.held).toBeCloseTo(45 - (end + 160 * 0.00864 + 3), 6);
  });

  it('round a bend is that of the straight line from end to end, as seen along the last straight', () => {
    // From up 0 to up -263.6, flow down: 263.6 x 18.0e-6 x 480.
    const { growth } = fitted(oneTube('', 'service: { hot: { primaries: 500 } }\n')).service;
    expect(growth?.ends[0]?.along).toBeCloseTo(263.6 * 18e-6 * 480, 9);
  });

  it('of a cooler neighbour falls behind: 100 K of 263.6 mm, and the means of EN 10088-1 at 500 and 400 C', () => {
    const two =
      twoFaces('slip').replace(', face: { normal: [-0.6, 0, 0.8] }', '') +
      'service: { hot: { primaries: 500, apart: 100 } }\n';
    const { growth } = fitted(two).service;
    expect(growth?.apart).toBeCloseTo(263.6 * (18e-6 * 480 - 17.5e-6 * 380), 9);
  });

  it('warns where the slip joint is short for it, with the depth that will do', () => {
    const { problems, service } = fitted(oneTube('').replace('depth: 45', 'depth: 28'));
    expect(problems.map(({ code }) => code)).toEqual(['service/short-engagement']);
    const asked = Number(/depth (\d+) mm/.exec(problems[0]?.fix ?? '')?.[1]);
    expect(asked).toBeGreaterThan(28);
    expect(fitted(oneTube('').replace('depth: 45', `depth: ${asked}`)).problems).toEqual([]);
    expect(fitted(oneTube('').replace('depth: 45', `depth: ${asked - 1}`)).problems).toHaveLength(1);
    expect(service.comesOff).toBe(true);
  });
});
