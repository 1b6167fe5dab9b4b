import { describe, expect, it } from 'vitest';
import { jobPages } from '../../src/base/codes/job.js';
import { readJob } from '../../src/job/index.js';
import { flangeJob, inchJob, routedJob, wholeJob } from '../support/jobs.js';

/** A good job made bad: what is replaced by what, and the code, path and text that must be pointed at. */
interface Broken {
  readonly code: keyof typeof jobPages;
  readonly job?: string;
  readonly from: string;
  readonly to: string;
  readonly path: string;
  /** Text (after the change) at whose start the place must lie; `''`: no more than a line is asserted. */
  readonly at: string;
  readonly says?: RegExp;
}

const broken: readonly Broken[] = [
  // Keys.
  {
    code: 'job/unknown-key',
    from: 'thickness: 10, material',
    to: 'thicknes: 10, material',
    path: 'flange.thicknes',
    at: 'thicknes: 10',
    says: /Did you mean "thickness"/,
  },
  {
    code: 'job/unknown-key',
    from: 'stub: 30',
    to: 'clocking: 30',
    path: 'primaries.clocking',
    at: 'clocking: 30',
    says: /collector\.clocking/,
  },
  {
    code: 'job/unknown-key',
    from: 'stub: 30',
    to: 'stub:30: 1',
    path: 'primaries.stub:30',
    at: 'stub:30',
    says: /space after the colon/,
  },
  {
    code: 'job/unknown-key',
    from: 'wrench: {',
    to: 'wranch: {',
    path: 'wranch',
    at: 'wranch',
    says: /Did you mean "wrench"/,
  },
  {
    code: 'job/missing-key',
    from: 'row: { count: 4, pitch: 92 }',
    to: 'row: { count: 4 }',
    path: 'ports.row.pitch',
    at: 'row: { count',
    says: /pitch: 92/,
  },
  {
    code: 'job/missing-key',
    from: 'job: hillclimb-four',
    to: '#',
    path: 'job',
    at: 'units',
    says: /job is missing/,
  },
  {
    code: 'job/missing-key',
    from: ', primary: P1',
    to: '',
    path: 'tack_fixture.cradle.at.0.primary',
    at: '{ station',
    job: wholeJob.replace('{ primary: P1, station: 120 }', '{ station: 120, primary: P1 }'),
  },
  {
    code: 'job/missing-key',
    job: flangeJob,
    from: '  shape: { circle: { diameter: 36 } }\n',
    to: '',
    path: 'ports.shape',
    at: 'ports:',
  },
  {
    code: 'job/missing-key',
    job: flangeJob,
    from: ', at: [[-30, 0], [30, 0]]',
    to: '',
    path: 'studs',
    at: 'studs',
  },
  { code: 'job/duplicate-key', from: 'units: mm', to: 'units: mm\nunits: in', path: '', at: 'units: in' },
  {
    code: 'job/contradiction',
    from: 'leaving: { down: 12 }',
    to: 'each: [{ at: [0, 0, 0] }]',
    path: 'ports.each',
    at: 'each:',
    says: /row/,
  },
  {
    code: 'job/contradiction',
    from: 'rounded_rectangle',
    to: 'circle: { diameter: 38 }, rounded_rectangle',
    path: 'ports.shape',
    at: 'shape: { circle',
  },
  {
    code: 'job/contradiction',
    job: routedJob,
    from: 'direction: [0, -1, 0] }\n    - { at: [-140',
    to: 'direction: [0, -1, 0], leaving: { down: 3 } }\n    - { at: [-140',
    path: 'ports.each.0.leaving',
    at: 'leaving: {',
  },
  {
    code: 'job/contradiction',
    from: 'flow: { right: 0.2,',
    to: 'flow: { down: 20, right: 0.2,',
    path: 'collector.flow.down',
    at: 'down: 20',
  },
  {
    code: 'job/contradiction',
    from: 'target: 800',
    to: 'target: 800, between: [700, 900]',
    path: 'length.between',
    at: 'between: [',
  },
  {
    code: 'job/contradiction',
    from: 'mesh: subframe.stl',
    to: 'mesh: subframe.stl, step: subframe.step',
    path: 'keep_outs.2',
    at: '{ name: subframe',
  },
  {
    code: 'job/contradiction',
    from: 'largest_angle: 150',
    to: 'largest_angle: 5\n',
    job: wholeJob.replace('least_angle: 5', 'least_angle: 6'),
    path: 'primaries.least_angle',
    at: '6\n',
  },
  {
    code: 'job/contradiction',
    from: 'joint_at_flange: butt',
    to: 'joint_at_flange: { socket: { depth: 4 }, through: { recess: 2 } }',
    path: 'primaries.joint_at_flange',
    at: 'joint_at_flange',
  },
  // Values.
  {
    code: 'job/wrong-type',
    from: 'thickness: 10, material',
    to: 'thickness: [10], material',
    path: 'flange.thickness',
    at: 'thickness: [10]',
  },
  {
    code: 'job/wrong-type',
    from: 'leaving: { down: 12 }',
    to: 'leaving: 12',
    path: 'ports.leaving',
    at: '12\nstuds',
  },
  {
    code: 'job/wrong-type',
    from: 'by_hand: {}',
    to: 'by_hand: [1]',
    path: 'primaries.by_hand',
    at: 'by_hand',
  },
  {
    code: 'job/wrong-type',
    from: 'box: { from: [-75, -90, -300]',
    to: 'box: { from: 75',
    path: 'keep_outs.0.box.from',
    at: '75, to',
  },
  {
    code: 'job/unknown-word',
    from: 'cut_by: plasma',
    to: 'cut_by: plasmma',
    path: 'flange.cut_by',
    at: 'plasmma',
    says: /did you mean "plasma"/,
  },
  {
    code: 'job/wrong-count',
    from: 'printer_bed: [220, 220, 250]',
    to: 'printer_bed: [220, 220, 250, 1]',
    path: 'tack_fixture.printer_bed',
    at: 'printer_bed',
  },
  {
    code: 'job/wrong-count',
    from: 'to: [345, 150, -10]',
    to: 'to: [345]',
    path: 'keep_outs.0.box.to',
    at: 'to: [345]',
    says: /holds 1 value/,
  },
  {
    code: 'job/not-a-number',
    from: 'pitch: 92',
    to: 'pitch: about ninety',
    path: 'ports.row.pitch',
    at: 'about',
  },
  {
    code: 'job/not-a-number',
    from: 'od: 42.4',
    to: 'od: 15/8 in',
    path: 'tube.od',
    at: '15/8',
    says: /1-5\/8/,
  },
  {
    code: 'job/decimal-comma',
    from: 'od: 42.4',
    to: 'od: "42,4"',
    path: 'tube.od',
    at: '"42,4"',
    says: /comma/,
  },
  { code: 'job/unit', from: 'pitch: 92', to: 'pitch: 92 furlong', path: 'ports.row.pitch', at: '92 furlong' },
  { code: 'job/unit', from: 'down: 12', to: 'down: 12 mm', path: 'ports.leaving.down', at: '12 mm' },
  {
    code: 'job/gauge',
    from: 'thickness: 10, material',
    to: 'thickness: 3 ga, material',
    path: 'flange.thickness',
    at: '3 ga',
    says: /differ by material/,
  },
  {
    code: 'job/gauge',
    from: 'wall: 1.6, material',
    to: 'wall: 40 ga, material',
    path: 'tube.wall',
    at: '40 ga',
  },
  { code: 'job/not-finite', from: 'stub: 30', to: 'stub: .nan', path: 'primaries.stub', at: '.nan' },
  { code: 'job/not-finite', from: 'count: 4', to: 'count: .inf', path: 'ports.row.count', at: '.inf' },
  {
    code: 'job/out-of-range',
    from: 'thickness: 10, material',
    to: 'thickness: -3, material',
    path: 'flange.thickness',
    at: '-3',
    says: /-3 mm; the least is 1 mm/,
  },
  {
    code: 'job/out-of-range',
    from: 'count: 4',
    to: 'count: 13',
    path: 'ports.row.count',
    at: '13',
    says: /from 1 to 12/,
  },
  {
    code: 'job/out-of-range',
    from: 'embrace: 170',
    to: 'embrace: 190',
    path: 'tack_fixture.cradle.embrace',
    at: '190',
    says: /190 deg; the most is 180 deg/,
  },
  {
    code: 'job/out-of-range',
    from: 'target: 800',
    to: 'target: 1 m 20',
    path: 'length.target',
    at: '',
    job: wholeJob.replace('target: 800', 'target: 100 m'),
  },
  {
    code: 'job/out-of-range',
    from: 'beside_each_port: [[',
    to: 'slotted: { by: 2, fixed: 9 }\n  beside_each_port: [[',
    path: 'studs.slotted.fixed',
    at: '9 }',
    says: /8 studs/,
  },
  {
    code: 'job/guess',
    from: 'pitch: 92',
    to: 'pitch: { value: 92, how: geussed }',
    path: 'ports.row.pitch.how',
    at: 'geussed',
  },
  {
    code: 'job/guess',
    from: 'pitch: 92',
    to: 'pitch: { value: 92, hwo: guessed }',
    path: 'ports.row.pitch.hwo',
    at: 'hwo',
    says: /did you mean "how"/,
  },
  // The job as a whole.
  {
    code: 'job/name',
    from: 'job: hillclimb-four',
    to: 'job: ../up there',
    path: 'job',
    at: '../up',
    says: /up there/,
  },
  { code: 'job/name', from: 'job: hillclimb-four', to: 'job: con', path: 'job', at: 'con ' },
  {
    code: 'job/section-missing',
    from: 'tube: { od',
    to: '#tube: { od',
    path: 'merge_plate',
    at: 'merge_plate',
  },
  {
    code: 'job/section-missing',
    job: flangeJob,
    from: 'flange: {}',
    to: 'strongback: {}',
    path: 'strongback',
    at: 'strongback',
  },
  {
    code: 'job/section-missing',
    job: flangeJob,
    from: 'flange: {}',
    to: 'flange: { opening: bore }',
    path: 'flange.opening',
    at: 'bore',
  },
  {
    code: 'job/engine',
    from: '[1, 3, 4, 2]',
    to: '[1, 3, 4, 4]',
    path: 'engine.firing_order',
    at: 'firing_order',
    says: /2 missing/,
  },
  {
    code: 'job/engine',
    job: routedJob,
    from: 'half_angle: 5',
    to: 'slots: firing',
    path: 'collector.slots',
    at: 'firing',
  },
  // Ports and studs.
  {
    code: 'job/shape',
    from: 'corner: 12',
    to: 'corner: 18',
    path: 'ports.shape.rounded_rectangle.corner',
    at: '18',
    says: /half the smaller side is 17 mm/,
  },
  {
    code: 'job/shape',
    from: 'rounded_rectangle: { width: 38, height: 34, corner: 12 }',
    to: 'obround: { length: 30, width: 34 }',
    path: 'ports.shape.obround.length',
    at: '30, width',
    says: /less than the width of 34 mm/,
  },
  {
    code: 'job/shape',
    from: 'rounded_rectangle: { width: 38, height: 34, corner: 12 }',
    to: 'd_shape: { width: 38, height: 34, flat: top, corner: 17.5 }',
    path: 'ports.shape.d_shape.corner',
    at: '17.5',
  },
  {
    code: 'job/face',
    job: inchJob,
    from: 'normal: [0.6, 0, 0.8] }',
    to: 'normal: [0.6, 0, 0.8], up: [3, 0, 4] }',
    path: 'ports.each.0.face.up',
    at: 'up: [3',
  },
  {
    code: 'job/face',
    job: inchJob,
    from: 'leaving: { down: 10 }, face',
    to: 'direction: [-1, 0, 0], face',
    path: 'ports.each.0.direction',
    at: 'direction',
    says: /126\.9 deg/,
  },
  {
    code: 'job/face',
    job: inchJob,
    from: 'made_as: each',
    to: 'made_as: one piece',
    path: 'flange.made_as',
    at: 'one piece',
  },
  {
    code: 'job/face',
    job: inchJob,
    from: 'beside_each_port',
    to: 'at',
    path: 'studs.at',
    at: 'at: [[-1-1/8',
  },
  {
    code: 'job/zero-direction',
    from: 'flow: { right: 0.2, up: -1, out: 0.15 }',
    to: 'flow: [0, 0, 0]',
    path: 'collector.flow',
    at: 'flow: [0',
  },
  {
    code: 'job/ports-overlap',
    from: 'pitch: 92',
    to: 'pitch: 30',
    path: 'ports.row.pitch',
    at: '30 }',
    says: /38 mm wide/,
  },
  {
    code: 'job/tubes-overlap',
    from: 'pitch: 92',
    to: 'pitch: 40',
    path: 'ports.row.pitch',
    at: '40 }',
    says: /40 mm apart; the tube is 42\.4 mm/,
  },
  {
    code: 'job/studs-overlap',
    from: '[33, -20]]',
    to: '[-30, 20]]',
    path: 'studs.beside_each_port.1',
    at: '[-30, 20]]',
    says: /3 mm apart; their holes need 9 mm/,
  },
  {
    code: 'job/stud-in-port',
    from: '[33, -20]]',
    to: '[22, 0]]',
    path: 'studs.beside_each_port.1',
    at: '[22, 0]]',
    says: /3 mm from the opening of P1; its hole needs 4\.5 mm/,
  },
  {
    code: 'job/stud-in-port',
    from: '[33, -20]]',
    to: '[2, 0]]',
    path: 'studs.beside_each_port.1',
    at: '[2, 0]]',
    says: /17 mm inside/,
  },
  { code: 'job/stud-hole', from: 'thread: M8\n', to: 'thread: M9\n', path: 'studs.thread', at: 'M9' },
  {
    code: 'job/stud-hole',
    from: 'thread: M8\n',
    to: 'thread: M8\n  hole: 7.5\n',
    path: 'studs.hole',
    at: '7.5',
  },
  { code: 'job/stud-hole', from: 'thread: M8\n', to: 'fit: fine\n', path: 'studs', at: 'studs' },
  {
    code: 'job/bolt-ring',
    from: 'count: 6, thread: M8',
    to: 'count: 6',
    path: 'merge_plate.bolt_ring',
    at: 'bolt_ring',
  },
  // Tube, primaries, collector, length.
  {
    code: 'job/wall',
    from: 'wall: 1.6, material',
    to: 'wall: 11, od: 20 }\nx: {',
    path: 'tube.wall',
    at: '11',
    job: wholeJob.replace('od: 42.4, ', ''),
  },
  {
    code: 'job/no-such-primary',
    from: 'by_hand: {}',
    to: 'by_hand: { P5: [{ straight: 100 }] }',
    path: 'primaries.by_hand.P5',
    at: 'P5',
  },
  {
    code: 'job/no-such-primary',
    from: 'head_of: [P1, P2, P3, P4]',
    to: 'head_of: [P1, p2, P3, P4]',
    path: 'keep_outs.0.head_of.1',
    at: 'p2',
    says: /did you mean "P2"/,
  },
  {
    code: 'job/no-such-primary',
    from: 'primary: P1',
    to: 'primary: P7',
    path: 'tack_fixture.cradle.at.0.primary',
    at: 'P7',
  },
  {
    code: 'job/route-rows',
    from: 'by_hand: {}',
    to: 'by_hand: { P1: [{ straight: 40 }, { straight: 50 }, { straight: 60 }] }',
    path: 'primaries.by_hand.P1.1',
    at: '{ straight: 50 }',
  },
  {
    code: 'job/route-rows',
    from: 'by_hand: {}',
    to: 'by_hand: { P1: [{ straight: 40 }, { clr: 63.6, angle: 90, clock: 0 }] }',
    path: 'primaries.by_hand.P1.1',
    at: '{ clr',
  },
  {
    code: 'job/joint',
    from: 'joint_at_flange: butt',
    to: 'joint_at_flange: { socket: { depth: 10 } }',
    path: 'primaries.joint_at_flange.socket.depth',
    at: '10 } }',
  },
  {
    code: 'job/slip',
    from: 'last_straight: 60',
    to: 'last_straight: 40',
    path: 'primaries.last_straight',
    at: '40',
    says: /45 mm deep/,
  },
  {
    code: 'job/sleeves',
    from: 'slot_gap: 5',
    to: 'slot_gap: 3',
    path: 'collector.slot_gap',
    at: '3\n',
    says: /-0\.6 mm between/,
  },
  {
    code: 'job/slots',
    from: 'slots: shortest',
    to: 'slots: [S1, S2, S3, S3]',
    path: 'collector.slots.3',
    at: 'S3]',
  },
  {
    code: 'job/length',
    from: 'target: 800',
    to: 'between: [900, 800]',
    path: 'length.between',
    at: 'between',
  },
  {
    code: 'job/length',
    from: 'target: 800',
    to: 'target: 80',
    path: 'length',
    at: 'length: {',
    says: /90 mm/,
  },
  { code: 'job/keep-out', from: 'mesh: subframe.stl, ', to: '', path: 'keep_outs.2', at: '{ name: subframe' },
  {
    code: 'job/keep-out',
    from: 'to: [345, 150, -10]',
    to: 'to: [345, 150, -300]',
    path: 'keep_outs.0.box.to',
    at: 'to: [345, 150, -300]',
  },
  {
    code: 'job/keep-out',
    from: 'to: [255, -330, 190]',
    to: 'to: [-285, -60, 60]',
    path: 'keep_outs.1.cylinder.to',
    at: 'to: [-285',
  },
  // Legal but unwise.
  {
    code: 'job/thin-flange',
    from: 'thickness: 10, material',
    to: 'thickness: 5, material',
    path: 'flange.thickness',
    at: '5, material',
  },
  { code: 'job/sharp-fillet', from: 'fillet: 8', to: 'fillet: 2', path: 'flange.fillet', at: '2, least' },
  {
    code: 'job/narrow-edge',
    from: 'edge: 10, boss',
    to: 'edge: 5, boss',
    path: 'flange.edge',
    at: '5, boss',
  },
  {
    code: 'job/short-straight',
    from: 'stub: 30',
    to: 'stub: 12',
    path: 'primaries.stub',
    at: '12\n  between',
  },
  {
    code: 'job/short-straight',
    from: 'last_straight: 60',
    to: 'last_straight: 50',
    path: 'primaries.last_straight',
    at: '50',
  },
  {
    code: 'job/thin-wall',
    from: 'wall: 1.6, material',
    to: 'wall: 0.7, material',
    path: 'tube.wall',
    at: '0.7',
  },
  {
    code: 'job/small-clearance',
    from: 'kind: steering, ',
    to: 'kind: steering, clear: 12, ',
    path: 'keep_outs.1.clear',
    at: '12, cyl',
    says: /25 mm is usual/,
  },
  {
    code: 'job/usual-clearance',
    from: 'rack: rack.yaml',
    to: 'rack: rack.yaml',
    path: 'keep_outs.1',
    at: '{ name: steering',
  },
  {
    code: 'job/unknown-material',
    from: 'wall: 1.6, material: "304"',
    to: 'wall: 1.6, material: unobtainium',
    path: 'tube.material',
    at: 'unobtainium',
  },
  // The file as such.
  { code: 'job/tab', from: '  stub: 30', to: '\tstub: 30', path: '', at: '\tstub' },
  { code: 'job/several-documents', from: 'rack: rack.yaml', to: '---\nrack: rack.yaml', path: '', at: '---' },
  { code: 'job/aliases', from: 'stub: 30', to: 'stub: *other', path: '', at: '*other' },
  { code: 'job/syntax', from: 'pitch: 92 }', to: 'pitch: 92', path: '', at: 'leaving' },
  { code: 'job/empty', job: '# nothing yet\n', from: '# nothing yet', to: '# nothing', path: '', at: '' },
  { code: 'job/not-a-mapping', job: '- 1\n- 2\n', from: '- 2', to: '- 3', path: '', at: '- 1' },
  { code: 'job/too-large', from: 'rack: rack.yaml', to: `rack: ${'x'.repeat(1_000_001)}`, path: '', at: '' },
  { code: 'job/not-text', from: 'rack.yaml', to: '\0', path: '', at: '' },
];

/** Line and column, from 1, of the first `at` from the changed line on; before it where there is none. */
function spotOf(text: string, at: string, changed: number): { line: number; column: number } {
  const lineStart = text.lastIndexOf('\n', changed) + 1;
  const after = text.indexOf(at, lineStart);
  const before = text.slice(0, after < 0 ? text.lastIndexOf(at) : after).split('\n');
  return { line: before.length, column: (before.at(-1)?.length ?? 0) + 1 };
}

describe('a job made bad in one place gives its problem, at that place', () => {
  it.each(broken.map((one, i) => [`${i} ${one.code} ${one.path}`, one] as const))('%s', (_, one) => {
    const good = one.job ?? wholeJob;
    expect(good).toContain(one.from.slice(0, 5));
    const text = good.replace(one.from, () => one.to);
    const { problems, value } = readJob(text, { file: 'job.yaml' });
    const found = problems.filter((p) => p.code === one.code && (p.place?.path ?? '') === one.path);
    expect(problems.map((p) => `${p.code} ${p.place?.path ?? ''}`)).toContain(`${one.code} ${one.path}`);
    const problem = found[0];
    if (!problem) throw new Error('not found');
    expect(problem.place?.file).toBe('job.yaml');
    expect(problem.place?.line).toBeGreaterThan(0);
    if (one.at !== '') {
      expect(text).toContain(one.at);
      expect({ line: problem.place?.line, column: problem.place?.column }).toEqual(
        spotOf(text, one.at, good.indexOf(one.from)),
      );
    }
    if (one.says) expect(`${problem.what} ${problem.fix}`).toMatch(one.says);
    for (const words of [problem.what, problem.why, problem.fix]) expect(words.length).toBeGreaterThan(9);
    if (problems.some((p) => p.severity === 'error')) expect(value).toBeUndefined();
    else expect(value?.name).toBe('hillclimb-four');
  });

  it('covers every code of the area but that of our own bugs, and --set', () => {
    const shown = new Set<string>(broken.map((one) => one.code));
    const missing = Object.keys(jobPages).filter((code) => !shown.has(code));
    expect(missing).toEqual(['job/set']);
  });
});

describe('several problems', () => {
  it('are all told in one pass, down the page, though they stand in different sections', () => {
    const text = wholeJob
      .replace('pitch: 92', 'pich: 92')
      .replace('thickness: 10, material', 'thickness: 100, material')
      .replace('od: 42.4', 'od: "42,4"')
      .replace('joint: slip', 'joint: slid');
    const { problems } = readJob(text);
    const errors = problems.filter((p) => p.severity === 'error');
    expect(errors.map((p) => p.place?.path)).toEqual([
      'ports.row.pich',
      'flange.thickness',
      'tube.od',
      'collector.joint',
    ]);
    const lines = errors.map((p) => p.place?.line ?? 0);
    expect([...lines].sort((a, b) => a - b)).toEqual(lines);
  });
});
