import { readFileSync } from 'node:fs';
import path from 'node:path';
import { routeFailure } from '../../../src/build/route-failure.js';
import { openSolver } from '../../../src/build/solver.js';
import { routeJob } from '../../../src/design/route/index.js';
import { planPieces } from '../../../src/design/pieces/plan-pieces.js';
import { MOST_TRIANGLES, readStlCorners } from '../../../src/read/stl.js';
import {
  coveredLegs,
  half,
  job,
  plan,
  planCutShort,
  rack,
  refused,
  sound,
} from '../../design/pieces/refused.js';
import { command, inFolder } from '../../support/command.js';
import { binaryStl, boxSkin } from '../../support/meshes.js';
import { caseFolder, caseText, routingCase } from '../../support/routing-cases.js';
import { from, inJob, lay, onLine, ran, toldBy, type Told, type Trigger } from './trigger.js';

const rackOf = (name: string): string => readFileSync(`${caseFolder(name)}/rack.yaml`, 'utf8');
const bare = 'job: bare\nports: { row: { count: 2, pitch: 90 } }\n';
const script = path.resolve('scripts/port-flange.ts');

const builds: readonly Trigger[] = [
  onLine('build/no-file', ['build', 'none.yaml']),
  onLine('build/nothing-to-make', ['build', 'job.yaml'], { 'job.yaml': bare }),
  onLine('build/unknown-choice', ['build', 'job.yaml', '--only', 'flnage'], { 'job.yaml': bare }),
  onLine('build/no-cut-list', ['build', 'job.yaml', '--rack-after', 'rack-2.yaml'], {
    'job.yaml': readFileSync('fixtures/three-cylinder/job.yaml', 'utf8'),
  }),
  onLine('build/bad-dimension', ['make', script, '--pitch', '5']),
  onLine('build/bad-script', ['make', 'mine.ts'], { 'mine.ts': 'export default 7;\n' }),
  {
    code: 'build/exists',
    placed: false,
    raise: () =>
      inFolder(async (folder) => {
        await command(folder, 'new', 'trial');
        return toldBy(folder, 'new', 'trial');
      }),
  },
];

const v2 = (from = '', to = ''): string => caseText('v2').replace(from, to);
/** A sound job of one primary with a rack in which one text stands for another. */
const inRack = (code: string, replaced: string, by: string): Trigger =>
  inJob(code, withRack(job(sound)), { 'rack.yaml': rack(half).replace(replaced, by) });
const withRack = (text: string): string => text.replace('job: refused', 'job: refused\nrack: rack.yaml');
const racks: readonly Trigger[] = [
  inJob('rack/empty', withRack(job(sound)), { 'rack.yaml': 'tube: { od: 42.4, wall: 1.6 }\n' }),
  inRack('rack/tight-bend', 'clr: 63.6', 'clr: 20'),
  inRack('rack/leg-lost', 'legs: [100, 100]', 'legs: [100, 2]'),
  inRack('rack/short-straight', '{ length: 1000, price: 18 }', '{ length: 24, price: 18 }'),
  inRack('rack/thick-wall', 'od: 42.4, wall: 1.6', 'od: 22, wall: 12'),
  inRack('rack/other-tube', 'od: 42.4', 'od: 45'),
];

const pieces: readonly Trigger[] = [
  ...refused.map(([code, text, stock, , , options]): Trigger =>
    options.choices === undefined
      ? inJob(code, withRack(text), { 'rack.yaml': stock })
      : from(code, () => plan(text, stock, options).problems),
  ),
  from('pieces/no-weld-spot', () => {
    const { value, routes, stock } = coveredLegs();
    return planPieces(value, routes, stock).problems;
  }),
  from('pieces/not-proved', async () => planCutShort(await openSolver()).problems),
];

const box = boxSkin([200, -300, 100], [300, -200, 200]);
const scan = (code: string, keys: string, bytes?: Uint8Array | string): Trigger =>
  inJob(
    code,
    v2('keep_outs:\n', `keep_outs:\n- { name: subframe, clear: 10, ${keys} }\n`),
    bytes === undefined ? {} : { 'scan.stl': bytes },
  );
const matched =
  'matched: [{in_file: [0, 0, 0], at: [0, 0, 0]}, {in_file: [1, 0, 0], at: [1000, 0, 0]}, {in_file: [0, 1, 0], at: [0, 1000, 0]}]';
const keepOuts: readonly Trigger[] = [
  scan('keep-out/no-file', 'mesh: scan.stl'),
  scan('keep-out/unreadable', 'mesh: scan.stl', binaryStl(box).slice(0, 300)),
  scan('keep-out/unit', 'mesh: scan.stl', binaryStl(boxSkin([0.2, -0.3, 0.1], [0.3, -0.2, 0.2]))),
  scan('keep-out/far-off', 'mesh: scan.stl', binaryStl(boxSkin([5000, 0, 0], [5100, 100, 100]))),
  scan('keep-out/open', 'mesh: scan.stl', binaryStl(box.slice(2))),
  scan('keep-out/matched', `mesh: scan.stl, ${matched}`, binaryStl(box)),
  scan('solid/step-read', 'step: scan.stl', 'ISO-10303-21;\nHEADER;\nENDSEC;\nDATA;\nENDSEC;\nEND-ISO-10303-21;\n'), // prettier-ignore
  // Too large to be laid on a disk for it.
  from('keep-out/too-fine', () => {
    const bytes = new Uint8Array(84 + 50 * (MOST_TRIANGLES + 1));
    new DataView(bytes.buffer).setUint32(80, MOST_TRIANGLES + 1, true);
    return readStlCorners(bytes, 'scan.stl').problems;
  }),
  {
    code: 'pieces/as-cut',
    placed: true,
    raise: () =>
      frozen((folder) => {
        lay(folder, { 'job.yaml': `${v2()}as_cut: { P1-9: scrap }\n` });
        return toldBy(folder, 'check', 'job.yaml');
      }),
  },
  {
    code: 'pieces/as-cut-misses',
    placed: true,
    raise: () =>
      frozen((folder) => {
        lay(folder, { 'job.yaml': `${v2()}as_cut: { P1-1: { angle: 30 } }\n` });
        return toldBy(folder, 'check', 'job.yaml');
      }),
  },
  atBench('cradle/made-anew', '{ P1-1: { angle: 59 } }'),
  // Planned, P1-1 ends at 140 mm; turning 26 deg only it ends at 69, in the room of a wrench (66 to 74).
  inJob(
    'pieces/weld-amiss',
    readFileSync('fixtures/by-hand-four/job.yaml', 'utf8').replace('../hillclimb-four/', '') +
      'as_cut: { P1-1: { angle: 26 } }\n',
    { 'rack.yaml': readFileSync('fixtures/hillclimb-four/rack.yaml', 'utf8') },
  ),
  {
    code: 'pieces/as-cut-idle',
    placed: true,
    raise: () =>
      ran({ 'job.yaml': `${v2()}as_cut: { P1-1: scrap }\n`, 'rack.yaml': rackOf('v2') }, 'check', 'job.yaml'),
  },
  {
    code: 'pieces/as-cut-other-plan',
    placed: true,
    raise: () =>
      frozen(async (folder) => {
        lay(folder, {
          'cut-list.json': {
            pieces: [{ id: 'P1-1', kind: 'bend', clr: 1, angle: 2, leg_up: 3, leg_down: 4 }],
          },
          'job.yaml': `${v2()}as_cut: { P1-1: good }\n`,
        });
        return toldBy(folder, 'build', 'job.yaml', '--only', 'cut-list', '--out', '.');
      }),
  },
  {
    code: 'keep-out/changed',
    placed: true,
    raise: () =>
      frozen(async (folder) => {
        lay(folder, { 'scan.stl': binaryStl(boxSkin([900, 0, 0], [950, 50, 50])) });
        const text = v2('keep_outs:\n', 'keep_outs:\n- { name: scan, clear: 5, mesh: scan.stl }\n');
        const record = readFileSync(path.join(folder, 'routes.yaml'), 'utf8');
        lay(folder, {
          'job.yaml': text,
          'routes.yaml': record.replace('length:', 'keep_outs: {"scan.stl":"0"}\nlength:'),
        });
        return toldBy(folder, 'check', 'job.yaml');
      }),
  },
];

/** A code that corrections at the bench to the demo bring about. */
function atBench(code: string, asCut: string): Trigger {
  const demo = (name: string): string => readFileSync(`fixtures/hillclimb-four/${name}`, 'utf8');
  return inJob(code, `${demo('job.yaml')}as_cut: ${asCut}\n`, {
    'rack.yaml': demo('rack.yaml'),
    'routes.yaml': demo('routes.yaml'),
  });
}

let routed: string | undefined;

/** Work in a folder with the V-twin of the routing cases and its routes, which are found once for all. */
const frozen = <T>(work: (folder: string) => Promise<T>): Promise<T> =>
  inFolder(async (folder) => {
    lay(folder, { 'job.yaml': v2(), 'rack.yaml': rackOf('v2') });
    if (routed === undefined) await command(folder, 'route', 'job.yaml', '--effort', 'quick');
    else lay(folder, { 'routes.yaml': routed });
    routed ??= readFileSync(path.join(folder, 'routes.yaml'), 'utf8');
    return work(folder);
  });
const withRoutes = (code: string, placed: boolean, ...args: string[]): Trigger => ({
  code,
  placed,
  raise: () => frozen((folder) => toldBy(folder, ...args)),
});
const set = (value: string): string[] => ['--set', value];
const straightOut = '[{ straight: 700 }]';

const routes: readonly Trigger[] = [
  onLine('route/missing-section', ['route', 'job.yaml'], { 'job.yaml': bare }),
  ...(['route/impossible', 'route/would-free'] as const).map((code): Trigger => ({
    code,
    placed: code === 'route/impossible',
    raise: () => wall(),
  })),
  from('route/not-found', () => {
    const { job, rack } = routingCase('i4-easy');
    return routeFailure(routeJob(job, rack, { seed: 1, stop: () => true }), 'default');
  }),
  from('route/stopped', () => {
    const { job, rack } = routingCase('v2');
    // Asked often before it has a first answer, and stopped soon after that.
    let welds: number | undefined;
    const result = routeJob(job, rack, {
      seed: 1,
      explain: false,
      stop: () => welds !== undefined,
      onProgress: (told) => void (welds = told.welds ?? welds),
    });
    return routeFailure(result, 'default');
  }),
  {
    code: 'route/head-not-cleared',
    placed: true,
    raise: () =>
      ran(
        { 'job.yaml': v2('to: [-10.0, 110.0, -10.0]', 'to: [900, 110, 900]').replace('[-80.0, -150.0, -110.0]', '[-80, -900, -110]'), 'rack.yaml': rackOf('v2') }, // prettier-ignore
        'route',
        'job.yaml',
      ),
  },
  onLine('route/not-routed', ['check', 'job.yaml'], { 'job.yaml': v2(), 'rack.yaml': rackOf('v2') }),
  onLine('route/bad-record', ['check', 'job.yaml'], { 'job.yaml': v2(), 'rack.yaml': rackOf('v2'), 'routes.yaml': 'unit: mm\nlength: long\n' }, true), // prettier-ignore
  withRoutes('route/too-near', true, 'check', 'job.yaml', ...set('keep_outs.3.clear=300')),
  withRoutes('route/breaks-limit', true, 'check', 'job.yaml', ...set('primaries.stub=150')),
  withRoutes('route/by-hand-stays', true, 'route', 'job.yaml', '--effort', 'quick', ...set(`primaries.by_hand={ P1: ${straightOut}, P2: ${straightOut} }`)), // prettier-ignore
  onLine('route/nothing-frozen', ['route', 'job.yaml', '--only', 'P1'], { 'job.yaml': v2(), 'rack.yaml': rackOf('v2') }, true), // prettier-ignore
  withRoutes('route/built-off-tube', true, 'route', 'job.yaml', ...set('primaries.built={ P1: { up_to: 5000 } }')), // prettier-ignore
  withRoutes('route/nothing-open', true, 'route', 'job.yaml', ...set('primaries.built={ P1: whole, P2: whole }')), // prettier-ignore
  withRoutes('route/off-job', true, 'check', 'job.yaml', ...set('ports.each.0.at.0=1')),
];

let walled: Promise<readonly Told[]> | undefined;

/** A job that a wall makes impossible; searched once. */
const wall = (): Promise<readonly Told[]> =>
  (walled ??= ran(
    { 'job.yaml': caseText('x-wall'), 'rack.yaml': rackOf('x-wall') },
    'route',
    'job.yaml',
    '--effort',
    'quick',
  ));

/** What is told of command lines, racks, keep-outs that are files, routes and pieces. */
export const byCommands: readonly Trigger[] = [...builds, ...racks, ...pieces, ...keepOuts, ...routes];
