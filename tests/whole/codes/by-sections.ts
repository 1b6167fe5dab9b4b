import { radians } from '../../../src/base/numbers.js';
import { designCradles } from '../../../src/design/cradles.js';
import { designMergePlate } from '../../../src/design/merge-plate.js';
import { brokenSense } from '../../job/broken/parts-of-the-job.js';
import { brokenText } from '../../job/broken/keys-and-values.js';
import { brokenAdvice } from '../../job/broken/unwise.js';
import { fixture, turningRight, twinJob, twinSections } from '../../design/cradle-jobs.js';
import { mergeJob, mergeSections } from '../../design/merge-jobs.js';
import { oneTube } from '../../design/service/service-jobs.js';
import { flangeFaults } from '../../support/flange-faults.js';
import { flangeProblems, flangeSections } from '../../support/flange-job.js';
import { flangeJob, wholeJob } from '../../support/jobs.js';
import { from, inJob, onLine, type Trigger } from './trigger.js';

/** One for each code: the first of those that trigger it. */
const firstOfEach = (triggers: readonly Trigger[]): readonly Trigger[] => [
  ...new Map([...triggers].reverse().map((trigger) => [trigger.code, trigger])).values(),
];

/** The job file as such: tests/job/problems.test.ts holds every one of these to its place. */
const jobs: readonly Trigger[] = [
  ...firstOfEach(
    [...brokenText, ...brokenSense, ...brokenAdvice].map(({ code, job = wholeJob, from, to }) =>
      inJob(
        code,
        job.replace(from, () => to),
      ),
    ),
  ),
  onLine('job/set', ['check', 'job.yaml', '--set', 'flange.thickness'], { 'job.yaml': flangeJob }),
];

const flanges: readonly Trigger[] = [
  ...flangeFaults.map(([code, over]) =>
    // Without its section no flange is asked for but by name.
    code === 'flange/missing-section'
      ? from(code, () => flangeProblems(over))
      : inJob(code, flangeSections(over)),
  ),
  inJob('flange/weak-strongback', flangeSections({ strongback: { thickness: 8, margin: 10 } })),
];

const at = (primary: string, ...stations: number[]) => stations.map((station) => ({ primary, station }));
const over = (up: number) => ({ at: [0, up, 0], normal: [0, 1, 0] });
const cradle = (code: string, places: ReturnType<typeof at>, change = {}, base = over(-60)): Trigger =>
  inJob(code, twinSections({ tack_fixture: fixture(places, change, base) }));
const straights = (p1: number, p2: number) => ({
  by_hand: { P1: [{ straight: p1 }], P2: [{ straight: p2 }] },
});
const slip = { joint: 'slip', at: [400, 0, 300], flow: [1, 0, 0], slip: { depth: 45, gap: 0.4 } };
const back = [{ straight: 0 }, { clr: 42.4, angle: 90, clock: 90 }, { straight: 200 }];
const through = {
  ports: {
    shape: { circle: { diameter: 36 } },
    each: [
      { at: [0, 0, 0], direction: [0, 0, 1] },
      { at: [150, -30, 0], direction: [0, 0, 1] },
    ],
  },
  studs: { thread: 'M8', at: [[-33, 0], [183, 0]] }, // prettier-ignore
  primaries: { by_hand: { P1: [{ straight: 300 }], P2: back } },
  tack_fixture: fixture(at('P1', 50), {}, over(-80)),
};

const cradles: readonly Trigger[] = [
  from(
    'cradle/missing-section',
    () => designCradles(twinJob({ tack_fixture: undefined }), new Map()).problems,
  ),
  cradle('cradle/off-the-tube', at('P1', 3000)),
  cradle('cradle/moved', at('P1', 116)),
  inJob(
    'job/same-name',
    twinSections({
      keep_outs: [30, 60].map((x) => ({
        name: 'starter',
        box: { from: [x, -300, 0], to: [x + 20, -280, 20] },
      })),
    }),
  ),
  inJob('cradle/no-place', twinSections({ tack_fixture: fixture(at('P1', 50), {}, { at: [0, 0, -40], normal: [0, 0, 1] }) })), // prettier-ignore
  cradle('cradle/too-low', at('P1', 60), {}, over(-30)),
  cradle('cradle/off-the-bed', at('P1', 60), {}, over(-300)),
  cradle('cradle/slender', at('P1', 60), {}, over(-200)),
  cradle('cradle/strap-too-wide', at('P1', 60), { strap: { width: 18, depth: 3 } }),
  cradle('cradle/hole-too-big', at('P1', 60), { foot: { thickness: 6, tab: 15, hole: 14 } }),
  cradle('cradle/near-heat', at('P1', 40)),
  cradle('cradle/feet-clash', at('P1', 60, 75)),
  inJob('cradle/tube-clash', twinSections(through)),
  inJob('cradle/in-sleeve', twinSections({ collector: slip, tack_fixture: fixture(at('P1', 368)) })),
  inJob('cradle/no-route', twinSections({ primaries: { by_hand: { P1: turningRight } }, tack_fixture: fixture(at('P2', 60)) })), // prettier-ignore
  inJob('cradle/stations-chosen', twinSections({ tack_fixture: { base: over(-60) } })),
  inJob('cradle/held-too-little', twinSections({ tack_fixture: { base: over(-30) } })),
  inJob('cradle/misses-slot', twinSections({ collector: { ...slip, clocking: 0 } })),
  inJob('cradle/slot-shared', twinSections({ collector: { ...slip, at: [300, 0, 200], clocking: 90 } })),
  inJob('cradle/lengths-apart', twinSections({ primaries: straights(800, 803.5), length: { target: 801, spread: 2 } })), // prettier-ignore
  inJob('cradle/length-not-asked', twinSections({ primaries: straights(640, 640), length: { target: 801, spread: 2 } })), // prettier-ignore
];

const merges: readonly Trigger[] = [
  from('merge/missing-section', () => designMergePlate({ ...mergeJob(3), collector: undefined }).problems),
  inJob('merge/count', mergeSections(1)),
  from('merge/lean', () => {
    const job = mergeJob(4);
    const collector = job.collector && { ...job.collector, halfAngle: radians(35) };
    return designMergePlate({ ...job, collector }).problems;
  }),
  inJob('merge/thin-web', mergeSections(4, { least_web: 8 }, { slot_gap: 5 })),
  inJob('merge/star-and-centre', mergeSections(6, { star_hole: 5, centre_tube: 30 })),
  inJob('merge/in-sleeves', mergeSections(4, { upstream: 30 }, { joint: 'slip', slip: { depth: 45, gap: 0.4 } })), // prettier-ignore
  inJob('merge/tube-short', mergeSections(4, { upstream: 2.9 })),
  inJob('merge/tight-hole', mergeSections(4, { gap: 0.3 })),
  inJob('merge/no-room-for-tool', mergeSections(4, { bolt_ring: { count: 4, thread: 'M8', circle: 88 } })),
  inJob('merge/no-room-for-mark', mergeSections(2, { edge: 4, least_web: 4 })),
];

const block = (low: number[], high: number[], more = ''): string =>
  `  - { name: block, clear: 0, box: { from: [${low.join(', ')}], to: [${high.join(', ')}] }${more} }\n`;
const twoFaces = twinSections({
  ports: {
    shape: { circle: { diameter: 36 } },
    each: [
      { at: [0, 0, 0], direction: [0, 0, 1], face: { normal: [0, 0, 1] } },
      { at: [500, 0, 0], direction: [0, 1, 0], face: { normal: [0, 1, 0] } },
    ],
  },
  flange: { thickness: 10, made_as: 'each' },
  collector: { ...slip, joint: 'welded' },
  tack_fixture: undefined,
});

const services: readonly Trigger[] = [
  inJob('service/faces-joined', twoFaces),
  inJob('service/collector-stays', oneTube(block([-100, -520, 60], [100, -460, 160]))),
  inJob('service/header-stays', oneTube(block([-80, -160, 154.8], [80, -40, 200]))),
  inJob('service/no-tool-room', oneTube(block([44, -30, 45], [90, 30, 60]))),
  inJob(
    'service/neighbour-stays',
    oneTube(
      block([-15, -240, 20], [15, -180, 80], ', comes_out: left') + block([-40, -220, 40], [-20, -200, 60]),
    ),
  ),
  inJob('service/not-looked-at', oneTube('  - { name: scan, clear: 0, mesh: scan.stl }\n')),
  inJob('service/short-engagement', oneTube('').replace('depth: 45', 'depth: 28')),
];

/** What is told of the sections of a job. */
export const bySections: readonly Trigger[] = [...jobs, ...flanges, ...cradles, ...merges, ...services];
