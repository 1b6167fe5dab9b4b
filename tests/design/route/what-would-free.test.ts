import { describe, expect, it } from 'vitest';
import { parse, stringify } from 'yaml';
import { routeFailure } from '../../../src/build/route-failure.js';
import { routeJob, setProblem, type WouldFree } from '../../../src/design/route/index.js';
import { certificatesOf } from '../../../src/design/route/certificates.js';
import { possibleChanges } from '../../../src/design/route/possible-changes.js';
import { caseFolder, caseText, routingCase } from '../../support/routing-cases.js';
import { judge } from '../../support/judge.js';

/* What is advised is made in the job's text, by code of the tests' own, and the job read and routed anew. */

interface WrittenJob {
  keep_outs: { clear: number; box: Record<'from' | 'to', number[]>; cylinder: { diameter: number } }[];
  collector: { at: { right: number; up: number; out: number } };
  length: { between: [number, number] };
  primaries: { stub: number; last_straight: number };
}

const number = (value: WouldFree['now']): number => {
  if (typeof value !== 'number') throw new Error('a place');
  return value;
};

/** Many searches: on a busy machine these take long. */
const LONG = 600_000;

/** The job's text with a change written into it. */
function made(text: string, { change, now }: WouldFree): string {
  const job = parse(text) as WrittenJob;
  const keepOut = 'path' in change ? job.keep_outs[Number(change.path.split('.')[1])] : undefined;
  if (change.kind === 'face' && keepOut) keepOut.box[change.side][change.axis] = number(now);
  else if (change.kind === 'clear' && keepOut) keepOut.clear = number(now);
  else if (change.kind === 'diameter' && keepOut) keepOut.cylinder.diameter = number(now);
  else if (change.kind === 'longer') job.length.between[1] = number(now);
  else if (change.kind === 'stub') job.primaries.stub = number(now);
  else if (change.kind === 'collector moved' && typeof now !== 'number')
    job.collector.at = { right: now[0], up: now[1], out: now[2] };
  else throw new Error(`the test cannot write ${change.kind}`);
  return stringify(job);
}

const adviceFor = (name: string, text: string) => {
  const { job, rack } = routingCase(name, text);
  return routeJob(job, rack, { seed: 1, effort: 'quick' });
};
const proofsOf = (name: string, text: string) => {
  const { job, rack } = routingCase(name, text);
  return certificatesOf(setProblem(job, rack));
};
/** Each change told must let routes through that the judge finds faultless. */
function expectTrue(name: string, text: string, told: readonly WouldFree[]): void {
  for (const each of told) {
    const changed = made(text, each);
    const { job, rack } = routingCase(name, changed);
    const { record } = routeJob(job, rack, { seed: 1, effort: 'quick', explain: false });
    if (!record) throw new Error(`no routes with ${JSON.stringify(each)}`);
    expect(judge(caseFolder(name), record, 2, changed).faults).toEqual([]);
  }
}
const beforeGround = (text: string, keepOut: string): string =>
  text.replace('- name: ground', `${keepOut}\n- name: ground`);

describe('what would free a job', () => {
  it(
    'a wall with a slit: told to open the slit, and it goes',
    () => {
      const wall = (name: string, low: number, high: number): string =>
        `- {name: ${name}, clear: 10, box: {from: [-320, ${low}, -700], to: [-300, ${high}, 500]}}\n`;
      const both = wall('upper wall', -245, 400) + wall('lower wall', -290, -270);
      const text = caseText('flat4').replace('- name: sump', `${both}- name: sump`);
      const result = adviceFor('flat4', text);
      expect([result.outcome, result.routedWithout]).toEqual(['not found', ['upper wall']]);
      const [first] = result.wouldFree;
      expect(first?.change).toEqual({
        kind: 'face',
        name: 'upper wall',
        path: 'keep_outs.2',
        axis: 1,
        side: 'from',
      });
      // A tube of 42.4 with 10 mm clear to both walls wants a slit of 62.4; four side by side no more in height.
      expect(first?.size).toBeGreaterThanOrEqual(62.4 - 25);
      expect(first?.tooLittle).toBe(0);
      expectTrue('flat4', text, result.wouldFree);
      const [error, note] = routeFailure(result, 'quick');
      expect(error?.fix).toContain('routes were found with upper wall');
      expect([note?.code, note?.severity]).toEqual(['route/would-free', 'note']);
      expect(note?.what).toContain(`instead of -245`);
      expect(`${note?.what} ${note?.why}`).not.toContain('prove');
    },
    LONG,
  );

  it(
    'a starter drawn too large: smaller, or the collector elsewhere',
    () => {
      const starter = '- {name: starter, clear: 10, box: {from: [-60, -330, -30], to: [330, -180, 260]}}';
      const text = beforeGround(caseText('i4-easy'), starter);
      const result = adviceFor('i4-easy', text);
      expect(result.outcome).toBe('not found');
      expect(result.wouldFree).toHaveLength(3);
      const sizes = result.wouldFree.map(({ relative }) => relative);
      expect(sizes).toEqual([...sizes].sort((a, b) => a - b));
      expect(result.wouldFree.some(({ change }) => change.kind === 'face' && change.name === 'starter')).toBe(
        true,
      );
      expectTrue('i4-easy', text, result.wouldFree.slice(0, 2));
    },
    LONG,
  );

  it('no clearance is lowered of what the job says is a brake line, nor a head shrunk', () => {
    const line =
      '- {name: line, kind: brake line, clear: 75, box: {from: [-60, -330, -30], to: [330, -180, 260]}}';
    const { job } = routingCase('i4-easy', beforeGround(caseText('i4-easy'), line));
    const kinds = (name: string) =>
      possibleChanges(job, [name])
        .map(({ change }) => change.kind)
        .filter((kind) => ['face', 'clear'].includes(kind));
    expect(kinds('line')).toEqual(new Array(6).fill('face'));
    expect(kinds('cylinder head')).toEqual(['clear']);
    expect(kinds('engine block')).toEqual(['clear', ...new Array<string>(6).fill('face')]);
  });

  it(
    'too short a window: the proof reaches to the millimetre, the search needs more',
    () => {
      const between = (to: number): string =>
        caseText('i4-easy').replace('between: [700, 950]', `between: [500, ${to}]`);
      const result = adviceFor('i4-easy', between(530));
      expect(result.outcome).toBe('proved impossible');
      const longer = result.wouldFree.find(({ change }) => change.kind === 'longer');
      if (longer === undefined) throw new Error(JSON.stringify(result.wouldFree));
      const { tooLittle, size } = longer;
      expect(size).toBeGreaterThan(tooLittle);
      expect(proofsOf('i4-easy', between(530 + tooLittle))).not.toEqual([]);
      expect(proofsOf('i4-easy', between(530 + tooLittle + 1))).toEqual([]);
      expectTrue('i4-easy', between(530), result.wouldFree);
      expect(routeFailure(result, 'quick').at(-1)?.what).toContain(
        `${530 + tooLittle} mm is proved too short`,
      );
    },
    LONG,
  );

  it(
    'x-short: 877 mm is proved too short, with 950 mm or less routes are found',
    () => {
      const result = adviceFor('x-short', caseText('x-short'));
      expect(result.outcome).toBe('proved impossible');
      const longer = result.wouldFree.find(({ change }) => change.kind === 'longer');
      // P4's stub ends at (270, -6.84, 18.79); no slot's last straight begins nearer than 812.9 mm from there.
      expect(750 + (longer?.tooLittle ?? 0)).toBe(877);
      expect(number(longer?.now ?? 0)).toBeGreaterThan(877);
      expect(number(longer?.now ?? 0)).toBeLessThanOrEqual(950);
      expectTrue('x-short', caseText('x-short'), result.wouldFree);
    },
    LONG,
  );

  it('x-wall: nothing small frees it, only the bulkhead gone', () => {
    const result = adviceFor('x-wall', caseText('x-wall'));
    expect([result.outcome, result.wouldFree, result.routedWithout]).toEqual([
      'proved impossible',
      [],
      ['bulkhead'],
    ]);
    expect(routeFailure(result, 'quick').at(-1)?.what).toContain('bulkhead not there at all');
  });

  it('stopped while it tries, it ends', () => {
    const { job, rack } = routingCase('x-short');
    let tries = 0;
    const result = routeJob(job, rack, {
      seed: 1,
      effort: 'quick',
      stop: () => tries > 1,
      onProgress: ({ freeing }) => (tries += freeing ? 1 : 0),
    });
    expect(result.outcome).toBe('proved impossible');
    expect(tries).toBe(2);
  });
});

describe('numbers of the proofs', () => {
  const stubbed = (stub: number): string =>
    beforeGround(
      caseText('i4-easy').replace('stub: 20', `stub: ${stub}`),
      '- {name: bracket, clear: 5, box: {from: [60, -200, 35], to: [120, 200, 60]}}',
    );

  it('a bracket before a port: the longest first straight, by the triangle, and no longer one', () => {
    const stub = proofsOf('i4-easy', stubbed(20)).find((one) => one.kind === 'stub blocked');
    // The axis rises at 20 degrees off square: 35 - 5 - 21.2 = 8.8 mm of height, 8.8 / cos 20 along it.
    const longest = 8.8 / Math.cos((20 * Math.PI) / 180);
    expect(stub?.kind === 'stub blocked' && stub.longest).toBeGreaterThan(longest - 0.2);
    expect(stub?.kind === 'stub blocked' && stub.longest).toBeLessThan(longest + 0.2);
    expect(stub?.kind === 'stub blocked' && stub.short).toBeCloseTo(
      20 * Math.cos((20 * Math.PI) / 180) - 8.8,
      1,
    );
    const kinds = (length: number) => proofsOf('i4-easy', stubbed(length)).map(({ kind }) => kind);
    expect(kinds(Math.floor(longest))).not.toContain('stub blocked');
    expect(kinds(Math.ceil(longest))).toContain('stub blocked');
    const result = { ...adviceFor('x-wall', caseText('x-wall')), proofs: stub ? [stub] : [] };
    expect(routeFailure(result, 'quick')[0]?.fix).toContain('make primaries.stub 9 mm or less');
  });

  it('a plate across the mouth: the longest last straight is certified, a longer one is not', () => {
    const mouth = (last: number): string =>
      beforeGround(
        caseText('i4-easy').replace('last_straight: 45', `last_straight: ${last}`),
        '- {name: shelf, clear: 3, box: {from: [-100, -370, 60], to: [300, -360, 300]}}',
      );
    const slots = (last: number) =>
      proofsOf('i4-easy', mouth(last)).flatMap((one) => (one.kind === 'slot blocked' ? [one] : []));
    const found = slots(60);
    expect(found.length).toBeGreaterThan(0);
    const longest = Math.min(...found.map((one) => one.longest));
    expect(longest).toBeGreaterThan(1);
    expect(slots(Math.floor(longest))).toEqual([]);
    expect(slots(Math.ceil(longest + 0.2)).length).toBeGreaterThan(0);
  });

  it('slots too few within reach: the window that would reach, to the millimetre', () => {
    const named = (to: number): string =>
      caseText('x-short')
        .replace('slots: shortest', 'slots: [S4, S1, S3, S2]')
        .replace('between: [600, 750]', `between: [600, ${to}]`);
    const [proof] = proofsOf('x-short', named(880));
    if (proof?.kind !== 'slots shared') throw new Error(JSON.stringify(proof));
    expect(proof.least).toBeGreaterThan(880);
    expect(proofsOf('x-short', named(Math.floor(proof.least)))).toHaveLength(1);
    expect(proofsOf('x-short', named(Math.ceil(proof.least)))).toEqual([]);
  });
});
