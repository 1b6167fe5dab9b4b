import { describe, expect, it } from 'vitest';
import { isError, type Problem } from '../../src/base/problems.js';
import type { Job } from '../../src/job/job.js';
import { readJob } from '../../src/job/index.js';
import { flangeJob, wholeJob } from '../support/jobs.js';

const read = (set: string[], text = wholeJob): { value: Job | undefined; problems: Problem[] } => {
  const { value, problems } = readJob(text, { file: 'job.yaml', set });
  return { value, problems: problems.filter(isError) };
};

const good = (set: string[], text = wholeJob): Job => {
  const { value, problems } = read(set, text);
  expect(problems).toEqual([]);
  if (!value) throw new Error('no job');
  return value;
};

describe('a value set from the command line', () => {
  it('takes the place of the file\u2019s, in a unit of its own', () => {
    expect(good(['ports.row.pitch=94mm']).ports[1]?.at[0]).toBe(94);
    expect(good(['ports.row.pitch=3-3/4 in']).ports[1]?.at[0]).toBeCloseTo(95.25, 9);
    expect(good(['flange.cut_by=waterjet', 'flange.least_web=5']).flange).toMatchObject({
      cutBy: 'waterjet',
      leastWeb: 5,
    });
  });
  it('may be a key that the file has not, even in a section that it has not', () => {
    expect(good(['flange.thickness=12'], flangeJob).flange?.thickness).toBe(12);
    expect(good(['tube.od=38', 'tube.wall=16 ga'], flangeJob).tube?.wall).toBeCloseTo(1.651, 9);
    expect(good(['primaries.joint_at_flange.socket.depth=4']).primaries?.jointAtFlange).toMatchObject({
      kind: 'socket',
      depth: 4,
    });
  });
  it('and is then no default any more', () => {
    expect(good(['flange.land=5']).defaults.map((d) => d.path)).not.toContain('flange.land');
  });
  it('counts the members of lists from 0; the next one is added at the end', () => {
    expect(good(['studs.at.1=[40, 5]'], flangeJob).studs?.all[1]?.at).toEqual([40, 5, 0]);
    expect(good(['studs.at[1][0]=44'], flangeJob).studs?.all[1]?.at).toEqual([44, 0, 0]);
    expect(good(['studs.at.2=[0, 40]'], flangeJob).studs?.all).toHaveLength(3);
    expect(good(['keep_outs.3.clear=20']).keepOuts[3]?.clear).toBe(20);
  });
  it('may be a list or a section', () => {
    expect(good(['ports.leaving={ down: 20 }']).ports[0]?.direction[1]).toBeCloseTo(
      -Math.sin(Math.PI / 9),
      12,
    );
    expect(good(['primaries.by_hand.P2=[{ straight: 100 }]']).primaries?.byHand).toEqual({
      P2: [{ straight: 100 }],
    });
  });
  it('may be a guess, and wipes out the guess it replaces', () => {
    const guessed = wholeJob.replace('pitch: 92', 'pitch: { value: 92, how: guessed }');
    expect(good(['ports.row.pitch=94'], guessed).guesses).toEqual([]);
    expect(good(['ports.row.pitch={ value: 94, how: guessed }']).guesses).toEqual([
      { path: 'ports.row.pitch', value: '94' },
    ]);
  });
  it('the last one of a path holds', () => {
    expect(good(['flange.thickness=8', 'flange.thickness=12']).flange?.thickness).toBe(12);
  });
  it('sets the unit that bare numbers are in', () => {
    expect(
      good(
        ['units=in', 'flange.thickness=0.375'],
        flangeJob.replace('36', '1.5').replace('[[-30, 0], [30, 0]]', '[[-1.2, 0], [1.2, 0]]'),
      ).flange?.thickness,
    ).toBeCloseTo(9.525, 9);
  });
});

describe('a value that cannot be set', () => {
  it.each([
    ['ports.row.pich=94', 'job/unknown-key', 'ports.row.pich', /--set ports\.row\.pitch=94/],
    ['wranch.tool=socket', 'job/unknown-key', 'wranch.tool', /--set wrench\.tool=socket/],
    ['flange.thickness.more=1', 'job/unknown-key', 'flange.thickness.more', /without keys/],
    ['studs.at.7=[1, 2]', 'job/set', 'studs.at.7', /0 to 2/],
    ['studs.at.first=[1, 2]', 'job/unknown-key', 'studs.at.first', /counted from 0/],
    ['ports.row.pitch', 'job/set', 'ports.row.pitch', /path=value/],
    ['=94', 'job/set', '', /path=value/],
    ['ports..pitch=94', 'job/set', 'ports..pitch', /path=value/],
    ['studs.at.0=[1, 2', 'job/set', 'studs.at.0', /such as/],
    ['ports.row.pitch=', 'job/set', 'ports.row.pitch', /such as/],
    ['ports.0=1', 'job/unknown-key', 'ports.0', /./],
    ['__proto__.x=1', 'job/unknown-key', '__proto__.x', /./],
  ] as const)('%s: %s', (setting, code, path, fix) => {
    const { problems } = read([setting], flangeJob);
    expect(problems.map((p) => p.code)).toEqual([code]);
    expect(problems[0]?.place).toEqual({ file: `--set ${path}`, path });
    expect(`${problems[0]?.what ?? ''} ${problems[0]?.fix ?? ''}`).toMatch(fix);
  });

  it('a place given by names in the file cannot be set by number, and the other way round', () => {
    expect(read(['collector.at.0=5']).problems.map((p) => p.code)).toEqual(['job/set']);
    const listed = wholeJob.replace('{ right: 150, up: -400, out: 180 }', '[150, -400, 180]');
    expect(read(['collector.at.right=5'], listed).problems.map((p) => p.code)).toEqual(['job/set']);
    expect(good(['collector.at.right=5']).collector?.at).toEqual([5, -400, 180]);
    expect(good(['collector.at.0=5'], listed).collector?.at).toEqual([5, -400, 180]);
  });

  it('a value that is out of range is placed on the command line, not in the file', () => {
    const { problems } = read(['flange.thickness=-2']);
    expect(problems.map((p) => [p.code, p.place])).toEqual([
      ['job/out-of-range', { file: '--set flange.thickness', path: 'flange.thickness' }],
    ]);
  });
  it('what is wrong under it too', () => {
    const { problems } = read(['ports.leaving={ down: 12, rihgt: 3 }']);
    expect(problems.map((p) => p.place)).toEqual([
      { file: '--set ports.leaving', path: 'ports.leaving.rihgt' },
    ]);
  });
  it('does not hide what is wrong in the file', () => {
    const { problems } = read(
      ['ports.row.pich=94'],
      wholeJob.replace('thickness: 10, material', 'thickness: -1, material'),
    );
    expect(problems.map((p) => p.place?.path)).toEqual(['flange.thickness', 'ports.row.pich']);
  });
});
