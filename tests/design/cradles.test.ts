import { describe, expect, it } from 'vitest';
import { degrees, radians } from '../../src/base/numbers.js';
import { randomFrom } from '../../src/base/random.js';
import { add, distance3, dot3, scale, turnedAbout, type Vector } from '../../src/base/vectors.js';
import { footOverlap, type CradleStand } from '../../src/design/cradle-clashes.js';
import { cradleFaults } from '../../src/design/cradle-limits.js';
import { baseFrame, poseOverBase } from '../../src/design/cradle-pose.js';
import { cradleStands, designCradles } from '../../src/design/cradles.js';
import type { CradlePart } from '../../src/design/parts.js';
import { linesByHand } from '../../src/design/routes-by-hand.js';
import { centreLineOf } from '../../src/geom/centre-line.js';
import { fixture, turningRight, twinJob } from './cradle-jobs.js';

const design = (sections: Record<string, unknown> = {}) => {
  const job = twinJob(sections);
  const lines = linesByHand(job);
  return { ...designCradles(job, lines), stands: cradleStands(job, lines), job, lines };
};
const at = (primary: string, ...stations: number[]) => stations.map((station) => ({ primary, station }));
const codes = (found: { readonly problems: readonly { code: string }[] }) =>
  found.problems.map((p) => p.code);
const first = (parts: readonly CradlePart[] | undefined): CradlePart => {
  const part = parts?.[0];
  if (part === undefined) throw new Error('no cradle was made');
  return part;
};

describe('cradle on a straight', () => {
  it('60 along a tube 60 over a level base: height, slope, breadth, lettering and foot, worked by hand', () => {
    const found = design();
    const part = first(found.value);
    expect(codes(found)).toEqual([]);
    expect(part).toMatchObject({
      name: 'cradle-P1-1',
      primary: 'P1',
      station: 60,
      bend: undefined,
      tilt: 0,
      clearance: 0.3,
      // 21.2 + 0.3, times sin 85, + 6 of wall, up to the next half millimetre.
      halfBreadth: 27.5,
    });
    expect(part.height).toBeCloseTo(60, 12);
    expect(part.engraving).toEqual({ text: 'P1-1 60', depth: 0.6, height: 6 });
    // The port's flange is 10 thick, so station 60 lies 70 out of the head: the base's y runs into the head.
    const [stand] = found.stands;
    expect(stand?.at[0]).toBeCloseTo(0, 12);
    expect(stand?.at[1]).toBeCloseTo(-70, 12);
    expect(degrees(stand?.turn ?? 0)).toBeCloseTo(270, 12);
    expect([stand?.along, stand?.across]).toEqual([20, 85]);
  });

  it('names run along each tube from the flange, whatever the order in the job', () => {
    const places = [...at('P2', 70), ...at('P1', 300, 60), ...at('P2', 320)];
    const found = design({ tack_fixture: fixture(places) });
    expect(found.value?.map(({ name, station }) => `${name} ${station}`)).toEqual([
      'cradle-P1-1 60',
      'cradle-P1-2 300',
      'cradle-P2-1 70',
      'cradle-P2-2 320',
    ]);
  });

  it('says in its remarks how far to keep from a tack and never to weld out in it', () => {
    const said = first(design().value).remarks.join(' ');
    expect(said).toMatch(/40 mm from every tack/);
    expect(said).toMatch(/Never weld out in a plastic cradle/);
    // Glass transitions by DSC: PLA 59.1, PETG 77.4 (makers' values on a filament data page), ABS 105 (encyclopaedia).
    expect(said).toMatch(/59 C for PLA, 77 for PETG, 105 for ABS/);
  });
});

describe('cradle on a bend', () => {
  it('half way round the level quarter turn: clock 270 where the flow turns right, azimuth -45 degrees', () => {
    const middle = 120 + (63.6 * Math.PI) / 4;
    const found = design({ tack_fixture: fixture(at('P1', middle)) });
    const part = first(found.value);
    expect(part.clearance).toBe(0.6);
    expect(part.bend?.clr).toBe(63.6);
    expect(degrees(part.bend?.clock ?? 0)).toBeCloseTo(270, 9);
    expect(part.tilt).toBeCloseTo(0, 12);
    // Seen from above the flow comes down the drawing (out of the head) and turns toward +x.
    expect(degrees(found.stands[0]?.turn ?? 0)).toBeCloseTo(315, 9);
  });

  it('200 random poses: the frame of the part puts the tube and its bend back where the centre line has them', () => {
    const random = randomFrom(41);
    for (let i = 0; i < 200; i++) {
      const any = (): Vector => [random.between(-1, 1), random.between(-1, 1), random.between(-1, 1)];
      const unit = (v: Vector): Vector => scale(v, 1 / Math.hypot(...v));
      const base = baseFrame({ at: scale(any(), 300), normal: unit(any()) });
      const line = centreLineOf(
        { at: scale(any(), 200), direction: unit(any()), clockReference: unit(any()) },
        [{ straight: 50 }, { clr: 80, angle: 1.5, clock: random.between(0, 6) }, { straight: 50 }],
      );
      const station = random.between(0, line.length);
      const pose = poseOverBase(base, line, station);
      const truth = line.poseAt(station);
      // Built up from the part's own words: turn the frame, lean it by the tilt, clock about the flow.
      const x = turnedAbout(base.right, base.out, pose.azimuth);
      const y = turnedAbout(base.up, base.out, pose.azimuth);
      const flow = turnedAbout(x, y, -pose.tilt);
      const up = turnedAbout(base.out, y, -pose.tilt);
      const foot = add(add(base.origin, scale(base.right, pose.at[0])), scale(base.up, pose.at[1]));
      expect(distance3(add(foot, scale(base.out, pose.height)), truth.at)).toBeLessThan(1e-9);
      expect(distance3(flow, truth.direction)).toBeLessThan(1e-9);
      expect(pose.bend === undefined).toBe(truth.turnToward === undefined);
      if (pose.bend !== undefined && truth.turnToward !== undefined)
        expect(distance3(turnedAbout(up, flow, pose.bend.clock), truth.turnToward)).toBeLessThan(1e-9);
    }
  });
});

describe('cradle that cannot stand where it is asked', () => {
  it('across the end of a bend: moved by the least that clears it, and told', () => {
    // The straight ends at 120; a level cradle 20 wide needs 10 each way, so 116 becomes 110.
    const found = design({ tack_fixture: fixture(at('P1', 116)) });
    expect(codes(found)).toEqual(['cradle/moved']);
    expect(found.problems[0]).toMatchObject({
      severity: 'note',
      fix: 'put station: 110 in the job',
      place: { path: 'tack_fixture.cradle.at.0.station' },
    });
    expect(first(found.value).station).toBe(110);
    expect(first(found.value).engraving.text).toBe('P1-1 110');
  });

  it('near the end of a bend: the inner side of the saddle reaches farther round it than half the width', () => {
    // Lips of a 170 degree saddle lie 21.8 sin 85 inside the bend: asin(10 / 41.88) of CLR 63.6 is 15.33 mm.
    const found = design({ tack_fixture: fixture(at('P1', 133)) });
    expect(codes(found)).toEqual(['cradle/moved']);
    expect(found.problems[0]?.what).toMatch(
      /needs 15.3 mm of the bend each way and the end of the bend is 13 mm/,
    );
    expect(first(found.value).station).toBe(135.5);
  });

  it('on a tube that stands steeper than 45 degrees: refused, with the nearest station that will do', () => {
    // Over a base under the head face, the first straight stands upright on it; after the quarter turn
    // the tube lies level, from 120 + 63.6 pi / 2 = 219.9 on. 45 degrees come on the bend.
    const found = design({
      tack_fixture: fixture(at('P1', 50), {}, { at: [0, 0, -40], normal: [0, 0, 1] }),
    });
    expect(found.value).toBeUndefined();
    expect(codes(found)).toEqual(['cradle/no-place']);
    const told = Number(/station: ([\d.]+)/.exec(found.problems[0]?.fix ?? '')?.[1]);
    expect(told).toBeGreaterThan(120 + (63.6 * Math.PI) / 4);
    expect(told).toBeLessThan(260);
    const again = design({
      tack_fixture: fixture(at('P1', told), {}, { at: [0, 0, -40], normal: [0, 0, 1] }),
    });
    expect(first(again.value).station).toBe(told);
    expect(Math.abs(first(again.value).tilt)).toBeLessThan(radians(45));
  });

  it('where the wide block has no straight long enough: told that no place will do', () => {
    const found = design({
      primaries: { by_hand: { P1: [{ straight: 15 }], P2: [{ straight: 15 }] } },
      tack_fixture: fixture(at('P1', 7)),
    });
    expect(codes(found)).toEqual(['cradle/off-the-tube']);
    expect(found.problems[0]?.fix).toMatch(/no place on P1 will do/);
  });

  it('too near the base: refused with the millimetres that are missing, which cure it', () => {
    // 21.5 of saddle + 6 + 3 + 6: the axis must run 36.5 over the base; 30 lacks 6.5.
    const low = design({
      tack_fixture: fixture(at('P1', 60), {}, { at: [0, -30, 0], normal: [0, 1, 0] }),
    });
    expect(low.value).toBeUndefined();
    expect(codes(low)).toEqual(['cradle/too-low']);
    expect(low.problems[0]?.fix).toMatch(/move tack_fixture.base.at 6.5 mm away/);
    const cured = design({
      tack_fixture: fixture(at('P1', 60), {}, { at: [0, -36.5, 0], normal: [0, 1, 0] }),
    });
    expect(codes(cured)).toEqual([]);
  });

  it('too tall for the printer, or tabs too long for its bed: refused, told what to change', () => {
    const tall = design({
      tack_fixture: fixture(at('P1', 60), {}, { at: [0, -300, 0], normal: [0, 1, 0] }),
    });
    expect(codes(tall)).toEqual(['cradle/slender', 'cradle/off-the-bed']);
    // Lips of a 170 degree saddle lie 21.5 cos 85 = 1.87 under the axis: 298.1, 48.1 over the 250 there are.
    expect(tall.problems[1]?.fix).toMatch(/move the base plane 49 mm nearer/);
    const long = design({
      tack_fixture: fixture(at('P1', 60), { foot: { thickness: 6, tab: 90, hole: 4.5 } }),
    });
    // 2 x (27.5 + 90) = 235 on a bed of 220: 7.5 too long on each side.
    expect(codes(long)).toEqual(['cradle/off-the-bed']);
    expect(long.problems[0]?.fix).toMatch(/8 mm shorter/);
  });

  it('a job-wide fault is told once: a strap slot of 18 in a cradle 20 wide', () => {
    const found = design({
      tack_fixture: fixture(at('P1', 60, 90), { strap: { width: 18, depth: 3 } }),
    });
    expect(codes(found).filter((code) => code === 'cradle/strap-too-wide')).toHaveLength(1);
    expect(found.problems[0]?.fix).toMatch(/strap.width: 16/);
  });

  it('no route, past the end, and no tack_fixture section', () => {
    const none = design({
      primaries: { by_hand: { P1: [{ straight: 200 }] } },
      tack_fixture: fixture([...at('P2', 60), ...at('P1', 300)]),
    });
    expect(codes(none)).toEqual(['cradle/no-route', 'cradle/off-the-tube']);
    expect(none.problems[0]?.place?.path).toBe('tack_fixture.cradle.at.0.primary');
    expect(none.problems[1]?.fix).toBe('take a station from 0 to 200');
    const bare = twinJob({ tack_fixture: undefined });
    expect(designCradles(bare, linesByHand(bare)).problems[0]).toMatchObject({
      code: 'cradle/missing-section',
      place: { path: 'tack_fixture' },
    });
  });
});

describe('cautions about a cradle', () => {
  it('nearer than 40 mm to the flange weld, or to the far end: warned with the station that clears it', () => {
    const near = design({ tack_fixture: fixture(at('P1', 40)) });
    expect(near.problems).toHaveLength(1);
    expect(near.problems[0]).toMatchObject({
      code: 'cradle/near-heat',
      severity: 'warning',
      fix: 'put it at station: 50',
    });
    expect(codes(design({ tack_fixture: fixture(at('P1', 50)) }))).toEqual([]);
    // Length 120 + 63.6 pi / 2 + 200 = 419.903; less 40 and half the width: 369.5.
    const end = design({ tack_fixture: fixture(at('P1', 380)) });
    expect(codes(end)).toEqual(['cradle/near-heat']);
    expect(end.problems[0]?.fix).toBe('put it at station: 369.5');
  });

  it('on the stretch that a sleeve takes', () => {
    const collector = { joint: 'slip', at: [400, 0, 300], flow: [1, 0, 0], slip: { depth: 45, gap: 0.4 } };
    const found = design({ collector, tack_fixture: fixture(at('P1', 368)) });
    expect(codes(found)).toEqual(['cradle/in-sleeve']);
    expect(found.problems[0]?.fix).toBe('put it at station: 364.5');
  });

  it('two feet on one place, and a tube through the block that holds another', () => {
    const feet = design({ tack_fixture: fixture(at('P1', 60, 75)) });
    expect(codes(feet)).toEqual(['cradle/feet-clash']);
    expect(feet.problems[0]?.what).toMatch(/overlap by 5 mm/);
    // P2 stands 30 lower and turns toward P1: it runs along -x, 42.4 out of the head, under P1.
    const back = [{ straight: 0 }, { clr: 42.4, angle: 90, clock: 90 }, { straight: 200 }];
    const through = design({
      ports: {
        shape: { circle: { diameter: 36 } },
        each: [
          { at: [0, 0, 0], direction: [0, 0, 1] },
          { at: [150, -30, 0], direction: [0, 0, 1] },
        ],
      },
      studs: {
        thread: 'M8',
        at: [
          [-33, 0],
          [183, 0],
        ],
      },
      primaries: { by_hand: { P1: [{ straight: 300 }], P2: back } },
      tack_fixture: fixture(at('P1', 50), {}, { at: [0, -80, 0], normal: [0, 1, 0] }),
    });
    expect(codes(through)).toEqual(['cradle/tube-clash']);
    expect(through.problems[0]?.what).toMatch(/^P2 at station \d+ runs 21.2 mm deep/);
  });
});

describe('a tube beside the block of a cradle', () => {
  /** P1 is held half way round its bend, the block turned 45 degrees; P2 stands upright beside it. */
  const beside = (across: number) => {
    const middle = { right: 63.6 * (1 - Math.SQRT1_2), out: 130 + 63.6 * Math.SQRT1_2 };
    const aside = across * Math.SQRT1_2;
    return design({
      ports: {
        each: [
          { at: [0, 0, 0], direction: [0, 0, 1] },
          {
            at: [middle.right + aside, -60, middle.out - aside],
            direction: [0, 1, 0],
            face: { normal: [0, 1, 0] },
          },
        ],
      },
      studs: undefined,
      flange: { thickness: 10, made_as: 'each' },
      primaries: { by_hand: { P1: turningRight, P2: [{ straight: 100 }] } },
      tack_fixture: fixture(at('P1', 120 + (63.6 * Math.PI) / 4)),
    });
  };

  it('35 across from its middle: 6 from the block of half breadth 29, so 15.2 deep; clear at 52', () => {
    const { problems, value } = beside(35);
    expect(problems.map(({ code }) => code)).toEqual(['cradle/tube-clash']);
    expect(first(value).halfBreadth).toBe(29);
    expect(problems[0]?.what).toMatch(/^P2 at station \d+ runs 15.2 mm deep/);
    expect(beside(52).problems).toEqual([]);
  });
});

describe('feet on the base plate', () => {
  const foot = (x: number, y: number, turn: number): CradleStand => ({
    name: 'cradle-P1-1',
    primary: 'P1',
    station: 0,
    at: [x, y],
    turn,
    along: 20,
    across: 80,
  });

  it('overlap of two 20 x 80 feet: side by side, crossed, and corner to corner', () => {
    expect(footOverlap(foot(0, 0, 0), foot(15, 0, 0))).toBeCloseTo(5, 12);
    expect(footOverlap(foot(0, 0, 0), foot(20, 0, 0))).toBeCloseTo(0, 12);
    expect(footOverlap(foot(0, 0, 0), foot(55, 0, radians(90)))).toBeCloseTo(-5, 12);
    // A foot turned 45 degrees reaches (20 + 80) / 2 / sqrt 2 = 35.36 along x.
    expect(footOverlap(foot(0, 0, 0), foot(45, 0, radians(45)))).toBeCloseTo(10 + 50 * Math.SQRT1_2 - 45, 9);
  });

  it('500 random pairs, against a grid of points inside both', () => {
    const random = randomFrom(42);
    let met = 0;
    for (let i = 0; i < 500; i++) {
      const a = foot(0, 0, random.between(0, 6));
      const b = foot(random.between(-60, 60), random.between(-60, 60), random.between(0, 6));
      const inside = (stand: CradleStand, p: readonly [number, number]) => {
        const [dx, dy] = [p[0] - stand.at[0], p[1] - stand.at[1]];
        const along = dx * Math.cos(stand.turn) + dy * Math.sin(stand.turn);
        const across = -dx * Math.sin(stand.turn) + dy * Math.cos(stand.turn);
        return Math.abs(along) <= stand.along / 2 && Math.abs(across) <= stand.across / 2;
      };
      let common = false;
      for (let u = -10; u <= 10 && !common; u += 0.5)
        for (let v = -40; v <= 40 && !common; v += 0.5) {
          const [c, s] = [Math.cos(a.turn), Math.sin(a.turn)];
          common = inside(b, [u * c - v * s, u * s + v * c]);
        }
      const overlap = footOverlap(a, b);
      if (common) expect(overlap).toBeGreaterThan(-1e-9);
      else expect(overlap).toBeLessThan(0.6);
      if (common) met++;
    }
    expect(met).toBeGreaterThan(100);
  });
});

describe('whole fixture', () => {
  it('every cradle made, over random stations and bases, keeps every limit and stands on one piece', () => {
    const random = randomFrom(43);
    let made = 0;
    for (let i = 0; i < 40; i++) {
      const places = at('P1', random.between(15, 400), random.between(15, 400));
      const base = {
        at: [0, -random.between(60, 120), 0],
        normal: [random.between(-0.3, 0.3), 1, random.between(-0.3, 0.3)],
      };
      const { value, lines, job } = design({ tack_fixture: fixture(places, {}, base) });
      const line = lines.get('P1');
      for (const part of value ?? []) {
        made++;
        expect(cradleFaults(part, job.tackFixture?.cradle.wall ?? 0)).toEqual([]);
        const pieces = [-1, 1].map((way) => line?.poseAt(part.station + way * 9.9).piece);
        expect(new Set(pieces).size).toBe(1);
        const axis = line?.poseAt(part.station).direction ?? [0, 0, 0];
        expect(
          dot3(axis, baseFrame(job.tackFixture?.base ?? { at: [0, 0, 0], normal: [0, 1, 0] }).out),
        ).toBeCloseTo(Math.sin(part.tilt), 12);
      }
    }
    expect(made).toBeGreaterThan(50);
  });
});
