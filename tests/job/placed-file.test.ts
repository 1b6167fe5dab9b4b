import { describe, expect, it } from 'vitest';
import { moved } from '../../src/geom/rigid-fit.js';
import { readJob } from '../../src/job/index.js';
import { wholeJob } from '../support/jobs.js';

/** The job with its mesh keep-out given more keys. */
const withKeys = (keys: string, body = 'mesh: subframe.stl') =>
  readJob(wholeJob.replace('mesh: subframe.stl', `${body}, ${keys}`), { file: 'job.yaml' });

const tell = (keys: string, body?: string): string =>
  withKeys(keys, body)
    .problems.filter(({ place }) => place?.path?.startsWith('keep_outs.2'))
    .map(({ code, severity, what, fix, place }) => `${severity} ${place?.path} ${code}: ${what} | ${fix}`)
    .join('\n');

/** Points in a file in metres whose frame is turned: its x is out, its y right, its z up, 0.1 m further up. */
const point = (inFile: string, at: string): string => `{ in_file: [${inFile}], at: [${at}] }`;
const good = [
  point('0, 0, 0', '0, 100, 0'),
  point('0.2, 0, 0', '0, 100, 200'),
  point('0, 0.3, 0', '300, 100, 0'),
  point('0, 0, -0.4', '0, -300, 0'),
];
const matched = (points: readonly string[]): string => `matched: [${points.join(', ')}]`;

describe('a keep-out given as a file', () => {
  it('in metres, with points found in both: brought into the frame of the engine', () => {
    const shape = withKeys(`file_unit: m, ${matched(good)}`).value?.keepOuts[2]?.shape;
    if (shape === undefined || !('file' in shape)) throw new Error('no file');
    expect(shape.unit).toBe(1000);
    moved(shape.motion, [100, 200, 300]).forEach((value, i) =>
      expect(value).toBeCloseTo([200, 400, 100][i] ?? NaN, 9),
    );
    expect(tell(`file_unit: m, ${matched(good)}`)).toBe('');
  });

  it('where nothing is said it is mm in the frame of the engine, and that is told among the defaults', () => {
    const { value } = readJob(wholeJob, { file: 'job.yaml' });
    expect(value?.keepOuts[2]?.shape).toEqual({
      kind: 'mesh',
      file: 'subframe.stl',
      unit: 1,
      motion: {
        turn: [
          [1, 0, 0],
          [0, 1, 0],
          [0, 0, 1],
        ],
        shift: [0, 0, 0],
      },
    });
    expect(value?.defaults).toContainEqual({ path: 'keep_outs.2.file_unit', value: 'mm' });
  });

  it.each([
    [
      'the unit left out',
      matched(good),
      /error keep_outs\.2\.matched keep-out\/matched: .* 1000 times .*file_unit: m$/,
    ],
    [
      'inches taken for metres',
      `file_unit: m, ${matched(
        good.map((one) =>
          one.replace(
            /in_file: \[(.*?)\]/,
            (_, n: string) =>
              `in_file: [${n
                .split(',')
                .map((v) => Number(v) / 0.0254)
                .join(', ')}]`,
          ),
        ),
      )}`,
      /file_unit: in$/,
    ],
    [
      'a size that is no unit',
      `file_unit: m, ${matched(
        good.map((one) =>
          one.replace(
            /at: \[(.*?)\]/,
            (_, n: string) =>
              `at: [${n
                .split(',')
                .map((v) => 1.3 * Number(v))
                .join(', ')}]`,
          ),
        ),
      )}`,
      /1\.3 times .*scale the scan/,
    ],
    [
      'points in a line',
      `file_unit: m, ${matched([good[0] ?? '', good[1] ?? '', point('0.1, 0, 0', '0, 100, 100')])}`,
      /lie in one line on the engine: .*0 mm, over 200 mm/,
    ],
    [
      'a point 5 mm off',
      `file_unit: m, ${matched([...good.slice(0, 3), point('0, 0, -0.4', '6, -306, 0')])}`,
      /^warning keep_outs\.2\.matched keep-out\/matched: .* by ([\d.]+, ){3}[\d.]+ mm .*ask \d mm more/,
    ],
    [
      'a point 60 mm off',
      `file_unit: m, ${matched([...good.slice(0, 3), point('0, 0, -0.4', '60, -300, 0')])}`,
      /^error keep_outs\.2\.matched keep-out\/matched: .* miss their places by [\d., ]+ mm/,
    ],
  ])('%s: told', (_, keys, says) => expect(tell(keys)).toMatch(says));

  it('two points are too few, a number that is none is told, a unit must be known', () => {
    expect(tell(matched(good.slice(0, 2)))).toMatch(/keep_outs\.2\.matched /);
    expect(tell(`file_unit: m, ${matched([point('0, 0, much', '0, 0, 0'), ...good])}`)).toMatch(
      /in_file\.2 /,
    );
    expect(tell('file_unit: yard')).toMatch(/keep_outs\.2\.file_unit job\/unknown-word/);
  });

  it('a STEP file tells its own unit, and a box has none', () => {
    expect(tell('file_unit: m', 'step: subframe.step')).toMatch(/file_unit job\/contradiction/);
    const boxed = 'box: { from: [0, 0, 0], to: [9, 9, 9] }';
    expect(tell('file_unit: m', boxed)).toMatch(/file_unit job\/contradiction/);
    expect(tell(matched(good), boxed)).toMatch(/matched job\/contradiction/);
  });
});
