import { describe, expect, it } from 'vitest';
import { fitted, oneTube } from './service-jobs.js';

const box = (name: string, from: number[], to: number[], more = ''): string =>
  `  - { name: ${name}, clear: 0, box: { from: [${from.join(', ')}], to: [${to.join(', ')}] }${more} }\n`;
const names = (steps: readonly { name: string }[]): string[] => steps.map(({ name }) => name);

describe('the collector drawn off along its flow (figures by hand, from the job itself)', () => {
  // A box below: the body stops 1 mm over its top; 48 + 1 mm are needed below up -423.6.
  const below = (top: number): string => box('crossmember', [-100, top - 60, 60], [100, top, 160]);

  it('is short by 6 mm where the box stands 43 mm behind the body: it gets 42 of 48 mm', () => {
    const { service, problems } = fitted(oneTube(below(-466.6)));
    const [collector] = service.steps.filter(({ kind }) => kind === 'collector');
    const stays = collector ?? service.collectorStays;
    expect(stays?.distance).toBe(48);
    expect(stays?.blockers).toHaveLength(1);
    expect(stays?.blockers[0]).toMatchObject({ name: 'crossmember' });
    expect(stays?.blockers[0]?.reach).toBeCloseTo(42, 1);
    expect(stays?.blockers[0]?.missing).toBeCloseTo(6, 1);
    expect(stays?.blockers[0]?.shift).toEqual({ by: 6, toward: 'down' });
    expect(problems.map(({ code }) => code)).toEqual(['service/collector-stays']);
    expect(problems[0]?.what).toMatch(/42 mm of 48 mm .*crossmember: 6 mm short/);
    expect(problems[0]?.fix).toMatch(/move crossmember 6 mm down.*slip\.depth 39 mm/);
    expect(problems[0]?.place?.path).toBe('keep_outs.1');
  });

  it('just passes where it stands 49 mm behind, and not a tenth of a millimetre nearer', () => {
    const good = fitted(oneTube(below(-472.6)));
    expect(good.problems).toEqual([]);
    expect(good.service.comesOff).toBe(true);
    expect(good.service.inOne).toBe(false);
    expect(names(good.service.steps)).toEqual(['collector', 'nut of stud 1', 'nut of stud 2', 'header']);
    const [collector] = good.service.steps;
    expect(collector?.nearest).toBe('crossmember');
    expect(collector?.free).toBeGreaterThan(1 - 0.051);
    expect(collector?.free).toBeLessThanOrEqual(1);
    const short = fitted(oneTube(below(-472.5)));
    expect(short.service.collectorStays?.blockers[0]?.missing).toBeCloseTo(0.1, 1);
    // The cure told works: the slip joint shorter by what was missing, and then nothing is.
    expect(fitted(oneTube(below(-466.6)).replace('depth: 45', 'depth: 39')).problems).toEqual([]);
  });

  it('keeps to a plane below, and to a field that is the same box (told to 2 mm)', () => {
    const plane = fitted(
      oneTube('  - { name: ground, clear: 0, plane: { at: [0, -466.6, 0], normal: [0, 1, 0] } }\n'),
    );
    expect(plane.service.collectorStays?.blockers[0]?.missing).toBeCloseTo(6, 1);
    const file = oneTube('  - { name: scan, clear: 0, mesh: scan.stl }\n');
    const distance = (x: number, y: number, z: number): number => {
      const out = [Math.abs(x) - 100, y + 466.6, -526.6 - y, 60 - z, z - 160];
      const [a, b, c] = [
        out[0] as number,
        Math.max(out[1] as number, out[2] as number),
        Math.max(out[3] as number, out[4] as number),
      ];
      const outside = Math.hypot(Math.max(0, a), Math.max(0, b), Math.max(0, c));
      return outside > 0 ? outside : Math.max(a, b, c);
    };
    const scanned = fitted(file, () => ({ distance, centre: [0, 0, 0], radius: 1e4, doubt: 0 }));
    const missing = scanned.service.collectorStays?.blockers[0]?.missing ?? NaN;
    expect(missing).toBeGreaterThanOrEqual(6 - 2.1);
    expect(missing).toBeLessThanOrEqual(6 + 2.1);
    const unseen = fitted(file);
    expect(unseen.service.comesOff).toBe(true);
    expect(unseen.problems).toMatchObject([
      { code: 'service/not-looked-at', severity: 'note', place: { path: 'keep_outs.1' } },
    ]);
  });

  it('comes off in one with the header where only the collector is blocked, and says so', () => {
    const { service, problems } = fitted(oneTube(below(-466.6)));
    expect(service).toMatchObject({ inOne: true, comesOff: true });
    expect(names(service.steps)).toEqual(['nut of stud 1', 'nut of stud 2', 'header']);
    expect(problems[0]?.why).toMatch(/in one with its collector/);
  });
});

describe('the header drawn off its studs', () => {
  // 29 mm to draw, from out 134.8: 154.8 leaves 20, of which 1 is margin.
  const front = (more = ''): string => box('fan', [-80, -160, 154.8], [80, -40, 200], more);

  it('is blocked by a box 20 mm in front of it: 19 of 29 mm, 10 missing', () => {
    const { service, problems } = fitted(oneTube(front()));
    const header = service.steps.at(-1);
    expect(header).toMatchObject({ kind: 'header', distance: 29, way: [0, 0, 1] });
    expect(Math.abs((header?.blockers[0]?.reach ?? 0) - 19)).toBeLessThan(0.08);
    expect(header?.blockers[0]?.missing).toBeCloseTo(10, 0);
    expect(header?.blockers[0]?.shift?.toward).toBe('out');
    expect(header?.blockers[0]?.shift?.by).toBeGreaterThanOrEqual(9.9);
    expect(header?.blockers[0]?.shift?.by).toBeLessThanOrEqual(10.1);
    expect(service.comesOff).toBe(false);
    expect(problems.map(({ code }) => code)).toEqual(['service/header-stays']);
    expect(fitted(oneTube(box('fan', [-80, -160, 164.8], [80, -40, 200]))).service.comesOff).toBe(true);
    expect(fitted(oneTube(box('fan', [-80, -160, 164.6], [80, -40, 200]))).service.comesOff).toBe(false);
  });

  it('shorter studs cure it', () => {
    expect(fitted(oneTube(front()).replace('stands: 26', 'stands: 15.9')).service.comesOff).toBe(true);
    expect(fitted(oneTube(front()).replace('stands: 26', 'stands: 16.3')).service.comesOff).toBe(false);
  });

  it('comes free once a neighbour that can come out is out, and the neighbour after the one in its own way', () => {
    const free = fitted(oneTube(front(', comes_out: left')));
    expect(free.problems).toEqual([]);
    expect(names(free.service.steps)).toEqual([
      'collector',
      'nut of stud 1',
      'nut of stud 2',
      'fan',
      'header',
    ]);
    // Its own size that way, and 3 mm.
    expect(free.service.steps[3]).toMatchObject({ way: [-1, 0, 0], distance: 163 });
    const hose = (more: string): string => box('hose', [-140, -120, 150], [-120, -80, 210], more);
    const chain = fitted(oneTube(front(', comes_out: left') + hose(', comes_out: up')));
    expect(names(chain.service.steps).slice(3)).toEqual(['hose', 'fan', 'header']);
    const stuck = fitted(oneTube(front(', comes_out: left') + hose('')));
    expect(stuck.service.comesOff).toBe(false);
    const fan = stuck.service.steps.find(({ name }) => name === 'fan');
    // 80 to 120 is free, less the margin.
    expect(fan?.blockers).toMatchObject([{ name: 'hose' }]);
    expect(fan?.blockers[0]?.reach).toBeCloseTo(39, 1);
    expect(fan?.blockers[0]?.missing).toBeCloseTo(163 - 39, 1);
    expect(stuck.problems.map(({ code }) => code)).toEqual([
      'service/neighbour-stays',
      'service/header-stays',
    ]);
    expect(stuck.problems[1]?.what).toMatch(/fan, which does not come out/);
  });

  it('is not held by the head it lies on, nor by a head drawn 0.8 mm too far out', () => {
    expect(fitted(oneTube('')).service.comesOff).toBe(true);
    const proud = fitted(oneTube('').replace('to: [60, 60, 0]', 'to: [60, 60, 0.8]'));
    expect(proud.service.comesOff).toBe(true);
    expect(proud.service.steps.flatMap(({ overlaps }) => overlaps)).toEqual([]);
    const deep = fitted(oneTube('').replace('to: [60, 60, 0]', 'to: [60, 60, 4]'));
    expect(deep.service.steps.at(-1)?.overlaps).toEqual(['head']);
  });

  it('a neighbour behind the tubes comes out after the header: told, and no fault', () => {
    // Between head and tube: out 20 to 80, and the tube's back is at out 92.4.
    const { service, problems } = fitted(
      oneTube(box('starter', [-15, -240, 20], [15, -180, 80], ', comes_out: out')),
    );
    expect(problems).toEqual([]);
    expect(names(service.steps)).not.toContain('starter');
    expect(service.neighbours).toMatchObject([
      { name: 'starter', way: [0, 0, 1], distance: 63, after: ['collector', 'header'] },
    ]);
    const aside = fitted(oneTube(box('starter', [-15, -240, 20], [15, -180, 80], ', comes_out: left')));
    expect(aside.service.neighbours).toMatchObject([{ name: 'starter', after: [] }]);
  });
});

describe('the tool on every nut', () => {
  // M8: a socket needs 25 mm about the stud (the table of threads), 110 mm out from the flange at out 10.
  const beside = (left: number): string => box('bracket', [left, -30, 40], [left + 50, 30, 60]);

  it('tells what stands in its room, by how much', () => {
    const { service, problems } = fitted(oneTube(beside(36 + 12.5 - 4)));
    const nut = service.steps.find(({ stud }) => stud === 2);
    expect(nut?.blockers[0]?.name).toBe('bracket');
    expect(nut?.blockers[0]?.missing).toBeCloseTo(4, 1);
    expect(nut?.blockers[0]?.shift).toEqual({ by: 4, toward: 'right' });
    expect(problems).toMatchObject([{ code: 'service/no-tool-room', place: { path: 'keep_outs.1' } }]);
    expect(problems[0]?.what).toMatch(/stud 2 .*socket: bracket: 4 mm short/);
    expect(problems[0]?.fix).toMatch(/4 mm right.*wrench\.tool: spanner/);
  });

  it('may be touched, and has its nearest told where it is free', () => {
    expect(fitted(oneTube(beside(36 + 12.5))).problems).toEqual([]);
    const near = fitted(oneTube(beside(36 + 12.5 + 1.5))).service.steps.find(({ stud }) => stud === 2);
    expect(near?.nearest).toBe('bracket');
    expect(near?.free).toBeCloseTo(1.5, 1);
    // The other stud: the tube stands 36 - 21.2 from its axis, less the socket's 12.5.
    const other = fitted(oneTube('')).service.steps.find(({ stud }) => stud === 1);
    expect(other?.nearest).toBe('P1');
    expect(other?.free).toBeGreaterThan(36 - 21.2 - 12.5 - 0.051);
    expect(other?.free).toBeLessThanOrEqual(36 - 21.2 - 12.5 + 1e-6);
  });
});
