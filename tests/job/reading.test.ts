import { describe, expect, it } from 'vitest';
import { isError } from '../../src/base/problems.js';
import { radians } from '../../src/base/numbers.js';
import { dot3, length3, type Vector } from '../../src/base/vectors.js';
import { jobFrom, readJob } from '../../src/job/index.js';
import type { Job } from '../../src/job/job.js';
import { flangeJob, inchJob, routedJob, wholeJob } from '../support/jobs.js';

function good(text: string): Job {
  const { value, problems } = readJob(text);
  expect(problems.filter(isError)).toEqual([]);
  if (!value) throw new Error('no job');
  return value;
}

const near = (a: Vector | undefined, b: Vector, digits = 9): void => {
  expect(a).toHaveLength(3);
  b.forEach((x, i) => expect(a?.[i]).toBeCloseTo(x, digits));
};

describe('the whole job', () => {
  const job = good(wholeJob);

  it('stands four ports 92 mm apart along the face, each opening a 38 x 34 rectangle', () => {
    expect(job.ports.map((p) => p.id)).toEqual(['P1', 'P2', 'P3', 'P4']);
    expect(job.ports.map((p) => p.at)).toEqual([
      [0, 0, 0],
      [92, 0, 0],
      [184, 0, 0],
      [276, 0, 0],
    ]);
    expect(job.ports[2]?.face.origin).toEqual([184, 0, 0]);
    expect(job.ports[0]?.shape).toEqual({
      kind: 'rounded rectangle',
      width: 38,
      height: 34,
      corner: 12,
      turned: 0,
    });
  });

  it('places eight studs with 9 mm holes (ISO 273 medium for M8)', () => {
    expect(job.studs?.all).toHaveLength(8);
    expect(job.studs?.all[5]).toMatchObject({ at: [217, -20, 0], port: 'P3', hole: 9, slotted: 0 });
    expect(job.studs?.thread).toBe('M8');
  });

  it('reads angles in rad and engine figures in cm3 and rev/min', () => {
    expect(job.collector?.halfAngle).toBeCloseTo(radians(8), 12);
    expect(job.collector?.clocking).toBeCloseTo(Math.PI / 4, 12);
    expect(job.primaries?.largestAngle).toBeCloseTo(radians(150), 12);
    expect(job.collector?.mayMove).toEqual({ along: 25, across: 10, tilt: radians(3) });
    expect(job.engine).toEqual({ cylinders: 4, firingOrder: [1, 3, 4, 2], capacity: 1998, tunedFor: 7200 });
    expect(job.tackFixture?.cradle.embrace).toBeCloseTo(radians(170), 12);
  });

  it('gives a flow of length 1 and sorts the corners of boxes', () => {
    expect(length3(job.collector?.flow ?? [0, 0, 0])).toBeCloseTo(1, 12);
    const text = wholeJob.replace(
      'from: [-75, -90, -300], to: [345, 150, -10]',
      'from: [345, -90, -10], to: [-75, 150, -300]',
    );
    expect(good(text).keepOuts[0]?.shape).toEqual({
      kind: 'box',
      from: [-75, -90, -300],
      to: [345, 150, -10],
    });
  });

  it('is frozen to the bottom', () => {
    expect(Object.isFrozen(job)).toBe(true);
    expect(Object.isFrozen(job.ports[0]?.face.right)).toBe(true);
    expect(Object.isFrozen(job.defaults[0])).toBe(true);
  });

  it('reads the same twice', () => expect(good(wholeJob)).toEqual(job));
});

describe('which way a port points', () => {
  const direction = (leaving: string, face = ''): Vector | undefined =>
    good(`job: a\nports: { each: [{ at: [0, 0, 0], leaving: ${leaving}${face} }] }\n`).ports[0]?.direction;

  // unit(out - tan d up + tan r right), worked by hand.
  it('12 deg down: (0, -sin 12, cos 12)', () =>
    near(direction('{ down: 12 }'), [0, -0.20791169, 0.9781476], 8));
  it('10 deg right: (sin 10, 0, cos 10)', () =>
    near(direction('{ right: 10 }'), [0.17364818, 0, 0.98480775], 8));
  it('45 down and 45 right: (1, -1, 1) / sqrt 3', () => {
    const third = 1 / Math.sqrt(3);
    near(direction('{ down: 45, right: 45 }'), [third, -third, third]);
  });
  it('seen from each side, the tilt is the angle given: atan of its parts', () => {
    const d = direction('{ down: 20, right: -7 }');
    expect(Math.atan2(-(d?.[1] ?? 0), d?.[2] ?? 0)).toBeCloseTo(radians(20), 12);
    expect(Math.atan2(d?.[0] ?? 0, d?.[2] ?? 0)).toBeCloseTo(radians(-7), 12);
  });
  it('on a face of its own, the tilts are counted off that face', () => {
    near(direction('{ down: 12 }', ', face: { normal: [1, 0, 0] }'), [0.9781476, -0.20791169, 0], 8);
    near(direction('{ right: 10 }', ', face: { normal: [1, 0, 0] }'), [0.98480775, 0, -0.17364818], 8);
  });
  it('square off the face where nothing is said, and that is noted as a default', () => {
    const job = good(flangeJob);
    near(job.ports[0]?.direction, [0, 0, 1]);
    expect(job.defaults).toContainEqual({ path: 'ports.leaving', value: 'square off the face' });
  });
  it('a direction across the face in a job that is only routed turns the face with it', () => {
    const job = good(routedJob);
    near(job.ports[0]?.face.out, [0, -1, 0]);
    expect(dot3(job.ports[0]?.face.up ?? [0, 0, 0], [0, -1, 0])).toBeCloseTo(0, 12);
  });
});

describe('rows', () => {
  it('first: right turns the numbering round: P2 stands to the left of P1', () => {
    const job = good(wholeJob.replace('pitch: 92', 'pitch: 92, first: right'));
    expect(job.ports.map((p) => p.at[0])).toEqual([0, -92, -184, -276]);
  });
  it('a port of its own shape, and one turned', () => {
    const text = `job: a\nports:\n  shape: { circle: { diameter: 30 } }\n  each:\n    - { at: [0, 0, 0] }\n    - { at: [80, 0, 0], shape: { obround: { length: 40, width: 30 }, turned: 10 } }\n    - { at: [160, 0, 0], shape: { obround: { length: 40, width: 30 } }, turned: -10 }\n`;
    const shapes = good(text).ports.map((p) => p.shape);
    expect(shapes[0]).toEqual({ kind: 'circle', diameter: 30, turned: 0 });
    expect(shapes[1]).toMatchObject({ kind: 'obround', turned: radians(10) });
    expect(shapes[2]).toMatchObject({ kind: 'obround', turned: radians(-10) });
  });
});

describe('inches, gauges and a twin with a face to each port', () => {
  const job = good(inchJob);
  it('lengths are mm inside', () => {
    expect(job.unit).toBe('in');
    expect(job.tube).toEqual({ od: 41.275, wall: 0.065 * 25.4, material: 'mild steel' });
    expect(job.flange?.thickness).toBeCloseTo(9.525, 9);
    expect(job.ports[1]?.at).toEqual([-190.5, -25.4, 0]);
    expect(job.engine?.capacity).toBeCloseTo(61 * 16.387064, 6);
  });
  it('studs follow the face of their port: 1-1/8 in to its right is (0.8, 0, -0.6) x 28.575', () => {
    near(job.studs?.all[1]?.at, [22.86, 0, -17.145]);
    near(job.studs?.all[1]?.face.out, [0.6, 0, 0.8]);
    expect(job.studs?.hole).toBeCloseTo((11 / 32) * 25.4, 9);
  });
  it('defaults are shown in the job\u2019s unit', () => {
    expect(job.defaults).toContainEqual({ path: 'flange.land', value: '0.2362 in' });
  });
});

describe('the collector', () => {
  const flow = (given: string): Vector | undefined =>
    good(wholeJob.replace('{ right: 0.2, up: -1, out: 0.15 }', given)).collector?.flow;
  it('by angle finder: below level, and seen from above from out toward right', () => {
    near(flow('{ down: 90 }'), [0, -1, 0]);
    near(flow('{ down: 0 }'), [0, 0, 1]);
    near(flow('{ down: 0, heading: 90 }'), [1, 0, 0]);
    near(flow('{ down: 30, heading: -90 }'), [-Math.sqrt(3) / 2, -0.5, 0]);
    near(flow('[0, -2, 0]'), [0, -1, 0]);
  });
  it('room at the slots for two sleeves and 1 mm: 0.4 + 2 x 1.6 + 1 = 4.6', () => {
    expect(good(wholeJob.replace('  slot_gap: 5\n', '')).collector?.slotGap).toBeCloseTo(4.6, 12);
  });
  it('sleeves are as thick as the tube, at least 1.6 mm', () => {
    expect(good(wholeJob).collector?.slip.sleeveWall).toBe(1.6);
    expect(good(wholeJob.replace('wall: 1.6', 'wall: 2')).collector?.slip.sleeveWall).toBe(2);
  });
  it('its clocking stays free where it is left out', () => {
    expect(good(wholeJob.replace('  clocking: 45\n', '')).collector?.clocking).toBeUndefined();
  });
});

describe('defaults', () => {
  const job = good(flangeJob);
  it('are those a fabricator would choose, each noted with its path (common practice)', () => {
    expect(job.flange).toMatchObject({
      thickness: 10,
      edge: 10,
      boss: 13.5,
      fillet: 8,
      leastWeb: 8,
      land: 6,
      openingMargin: 1,
    });
    const noted = new Map(job.defaults.map((d) => [d.path, d.value]));
    expect(noted.get('flange.thickness')).toBe('10 mm');
    expect(noted.get('flange.boss')).toBe('13.5 mm');
    expect(noted.get('flange.cut_by')).toBe('plasma');
    expect(noted.get('units')).toBe('mm');
  });
  it('are not noted for what the job gives', () => {
    const given = good(wholeJob).defaults.map((d) => d.path);
    expect(given).not.toContain('flange.thickness');
    expect(given).not.toContain('tube.material');
    expect(given).toContain('flange.land');
    expect(new Set(given).size).toBe(given.length);
  });
  it('a least web of 5 for laser and waterjet, 8 for plasma', () => {
    expect(good(flangeJob.replace('{}', '{ cut_by: laser }')).flange?.leastWeb).toBe(5);
    expect(good(flangeJob.replace('{}', '{ cut_by: plasma }')).flange?.leastWeb).toBe(8);
  });
  it('last straight: slip depth + 15, or 25 welded', () => {
    expect(good(wholeJob.replace('  last_straight: 60\n', '')).primaries?.lastStraight).toBe(60);
    expect(
      good(wholeJob.replace('  last_straight: 60\n', '').replace('slip: { depth: 45', 'slip: { depth: 50'))
        .primaries?.lastStraight,
    ).toBe(65);
    expect(good(routedJob.replace('last_straight: 45, ', '')).primaries?.lastStraight).toBe(25);
  });
  it('a base for the holders 200 mm below the collector, where nothing is said', () => {
    const text = wholeJob.replace(/ {2}base: .*\n/, '');
    expect(good(text).tackFixture?.base).toEqual({ at: [0, -600, 0], normal: [0, 1, 0] });
    expect(good(text).defaults).toContainEqual({ path: 'tack_fixture.base.at', value: '[0, -600 mm, 0]' });
  });
  it('sections that are not asked for stay absent, and nothing is noted for them', () => {
    expect([job.collector, job.mergePlate, job.tackFixture, job.strongback, job.tube]).toEqual(
      Array(5).fill(undefined),
    );
    expect(job.defaults.filter((d) => /collector|clear|tack/.test(d.path))).toEqual([]);
  });
  it('a saddle reaches round 170 deg, with 0.3 and 0.6 mm of clearance; no strap where none is wanted', () => {
    const text = wholeJob.replace(/ {2}cradle: .*\n/, '  cradle: { strap: none }\n');
    expect(good(text).tackFixture?.cradle).toMatchObject({
      width: 20,
      clearanceStraight: 0.3,
      clearanceBend: 0.6,
      strap: undefined,
    });
    expect(good(text).tackFixture?.cradle.embrace).toBeCloseTo(radians(170), 12);
  });
});

describe('clearances by kind of neighbour (common practice)', () => {
  const clear = (keys: string): number | undefined =>
    good(wholeJob.replace('clear: 10 }', `${keys} }`)).keepOuts[2]?.clear;
  it.each([
    ['kind: fuel line', 100],
    ['kind: fuel line, shielded: yes', 50],
    ['kind: fuel line, fixed_to: body', 110],
    ['kind: steering joint, moves: true', 60],
    ['kind: brake line, shielded: true, fixed_to: body', 40],
    ['fixed_to: body', 18],
    ['fixed_to: engine', 8],
    ['kind: fuel line, clear: 120', 120],
  ] as const)('%s: %f mm', (keys, mm) => expect(clear(keys)).toBe(mm));
});

describe('keep-outs', () => {
  it.each([
    ['box: { from: [1, 2, 3], to: [0, 5, 4] }', { kind: 'box', from: [0, 2, 3], to: [1, 5, 4] }],
    [
      'cylinder: { from: [0, 0, 0], to: [0, 9, 0], diameter: 25 }',
      { kind: 'cylinder', from: [0, 0, 0], to: [0, 9, 0], diameter: 25 },
    ],
    [
      'capsule: { from: [0, 0, 0], to: [0, 9, 0], diameter: 1 in }',
      { kind: 'capsule', from: [0, 0, 0], to: [0, 9, 0], diameter: 25.4 },
    ],
    [
      'plane: { at: [0, -640, 0], normal: { right: 0, up: 0, out: 2 } }',
      { kind: 'plane', at: [0, -640, 0], normal: [0, 0, 1] },
    ],
    ['mesh: head.stl', { kind: 'mesh', file: 'head.stl' }],
    ['step: head.step', { kind: 'step', file: 'head.step' }],
  ])('%s', (keys, shape) => {
    const one = good(wholeJob.replace('mesh: subframe.stl, clear: 10 }', `${keys}, comes_out: left }`))
      .keepOuts[2];
    expect(one).toMatchObject({
      shape,
      name: 'subframe',
      path: 'keep_outs.2',
      fixedTo: 'engine',
      headOf: [],
      comesOut: 'left',
      clear: 8,
    });
  });
});

describe('joints at the flange', () => {
  it.each([
    ['butt', { kind: 'butt' }],
    ['through', { kind: 'through', recess: 2, gap: 0.4 }],
    ['{ through: { recess: 3, gap: 0.5 } }', { kind: 'through', recess: 3, gap: 0.5 }],
    ['socket', { kind: 'socket', depth: 5, gap: 0.4 }],
    ['{ socket: { depth: 4 } }', { kind: 'socket', depth: 4, gap: 0.4 }],
  ])('%s', (written, joint) => {
    expect(
      good(wholeJob.replace('joint_at_flange: butt', `joint_at_flange: ${written}`)).primaries?.jointAtFlange,
    ).toEqual(joint);
  });
});

describe('studs', () => {
  it('slotted for growth: all but one, which is the one nearest the middle unless the job says', () => {
    const text = flangeJob.replace(
      'at: [[-30, 0], [30, 0]]',
      'slotted: { by: 2 }, at: [[-60, 0], [-5, 30], [60, 0]]',
    );
    expect(good(text).studs?.all.map((s) => s.slotted)).toEqual([2, 0, 2]);
    expect(good(text.replace('by: 2', 'by: 2, fixed: 3')).studs?.all.map((s) => s.slotted)).toEqual([
      2, 2, 0,
    ]);
  });
  it('of mixed sizes', () => {
    const text = flangeJob.replace('[30, 0]]', '{ at: [30, 0], thread: M10 }, { at: [0, 40], hole: 12 }]');
    expect(good(text).studs?.all.map((s) => [s.hole, s.path])).toEqual([
      [9, 'studs.at.0'],
      [11, 'studs.at.1'],
      [12, 'studs.at.2'],
    ]);
  });
});

describe('measured and guessed', () => {
  it('any value may say how it was come by; guesses are listed as they were written', () => {
    const text = wholeJob
      .replace('pitch: 92', 'pitch: { value: 92, how: guessed }')
      .replace('thickness: 10, material', 'thickness: { value: 3/8 in, how: guessed }, material')
      .replace('at: { right: 150, up: -400, out: 180 }', 'at: { value: [150, -400, 180], how: guessed }')
      .replace('od: 42.4', 'od: { value: 42.4, how: measured }');
    const job = good(text);
    expect(job.ports[1]?.at).toEqual([92, 0, 0]);
    expect(job.collector?.at).toEqual([150, -400, 180]);
    expect(job.tube?.od).toBe(42.4);
    expect(job.guesses).toEqual([
      { path: 'ports.row.pitch', value: '92' },
      { path: 'flange.thickness', value: '3/8 in' },
      { path: 'collector.at', value: '[150,-400,180]' },
    ]);
  });
});

describe('jobs from scripts', () => {
  it('take the same keys as a file, with typed-in units', () => {
    const { value } = jobFrom({
      job: 'trial',
      ports: { row: { count: 2, pitch: '3-1/2 in' }, shape: { circle: { diameter: 36 } } },
      studs: {
        thread: 'M8',
        beside_each_port: [
          [-28, 0],
          [28, 0],
        ],
      },
      flange: { thickness: 8, made_as: undefined },
    });
    expect(value?.ports[1]?.at[0]).toBeCloseTo(88.9, 9);
    expect(value?.flange?.thickness).toBe(8);
  });
  it('give problems with the path, without a line, and throw nothing', () => {
    const { value, problems } = jobFrom({ job: 'trial', ports: { row: { count: 2, pich: 90 } } });
    expect(value).toBeUndefined();
    expect(problems.map((p) => [p.code, p.place])).toContainEqual([
      'job/unknown-key',
      { path: 'ports.row.pich' },
    ]);
  });
  it.each([[null], [undefined], ['text'], [[1]], [() => 1], [new Map()], [new Date(0)]])(
    '%s is refused',
    (data) => {
      expect(jobFrom(data).value).toBeUndefined();
      expect(jobFrom(data).problems.length).toBeGreaterThan(0);
    },
  );
  it('an object that contains itself is refused', () => {
    const round: Record<string, unknown> = { job: 'a' };
    round.ports = round;
    expect(jobFrom(round).problems.some((p) => p.what.includes('contain themselves'))).toBe(true);
  });
  it('does not change what it was handed', () => {
    const data = { job: 'a', ports: { row: { count: { value: 1, how: 'guessed' } } } };
    const before = JSON.stringify(data);
    jobFrom(data, { set: ['ports.row.count=2', 'ports.row.pitch=90'] });
    expect(JSON.stringify(data)).toBe(before);
  });
});
