import { beforeAll, describe, expect, it } from 'vitest';
import { distance3 } from '../../src/base/vectors.js';
import { builtLine, wholeLines } from '../../src/design/route/built.js';
import {
  asRouted,
  linesOfRecord,
  routeJob,
  rowsOfRecord,
  whatStays,
  type RouteRecord,
} from '../../src/design/route/index.js';
import { routingCase } from '../support/routing-cases.js';

/* What primaries.built was wrong about: each of these gave a tube that begins where none ends, or no way out. */
const { job, rack } = routingCase('v2');
const options = { seed: 1, effort: 'quick', explain: false } as const;
const built = (station: number, more = {}) => ({
  ...job,
  primaries: { ...job.primaries, built: { P1: { station, end: undefined } }, ...more },
});
let whole: RouteRecord;
let tailed: RouteRecord;
/** In the first bend of P1. */
let station: number;

beforeAll(() => {
  const record = routeJob(job, rack, options).record;
  if (!record) throw new Error('not routed');
  whole = record;
  const [stub] = rowsOfRecord(record.primaries[0]?.rows ?? []);
  station = (stub && 'straight' in stub ? stub.straight : 0) + 10;
  const stays = whatStays(built(station), whole, undefined).value;
  const again = stays && routeJob(stays.job, rack, options).record;
  if (!again) throw new Error('no tail');
  tailed = again;
});

describe('a primary that is built up to a weld', () => {
  it('is not left with its whole route behind the weld when others alone are routed', () => {
    const { value, problems } = whatStays(built(station), whole, ['P2']);
    expect(value).toBeUndefined();
    expect(problems.map(({ code }) => code)).toEqual(['route/off-job']);
    expect(problems[0]?.fix).toContain('put P1 into --only');
    // Frozen as it stands, it can be left alone.
    expect(whatStays(built(station), tailed, ['P2']).value?.open).toEqual(['P2']);
  });

  it('cut in an arc: whole line and length are those of the record, from the flange on', () => {
    const lines = wholeLines(asRouted(job, tailed), linesOfRecord(tailed));
    const [line, before] = [lines.get('P1'), linesOfRecord(whole).get('P1')];
    expect(line?.length).toBeCloseTo(tailed.length, 6);
    for (const at of [0, station / 2, station - 0.001])
      expect(distance3(line?.poseAt(at).at ?? [0, 0, 0], before?.poseAt(at).at ?? [1, 1, 1])).toBeLessThan(
        1e-6,
      );
    expect(distance3(line?.end.at ?? [0, 0, 0], tailed.primaries[0]?.end.at ?? [1, 1, 1])).toBeLessThan(1e-6);
  });

  it.each([-0.5, 0.5, 60])('the weld told %d mm further along: that is where it then stands', (further) => {
    const { value, problems } = whatStays(built(station + further), tailed, undefined);
    expect(problems).toEqual([]);
    const part = value?.job.builtParts?.['P1'];
    if (!part) throw new Error('no part');
    expect(part.length).toBeCloseTo(station + further, 9);
    const line = wholeLines(asRouted(job, tailed), linesOfRecord(tailed)).get('P1');
    expect(distance3(builtLine(part).end.at, line?.poseAt(part.length).at ?? [0, 0, 0])).toBeLessThan(1e-6);
    expect(distance3(part.end.at, builtLine(part).end.at)).toBeLessThan(1e-6);
  });

  it('with rows by hand: they say where it runs up to the weld, and its tail is found', () => {
    const rows = rowsOfRecord(whole.primaries[0]?.rows ?? []);
    const { value } = whatStays(built(station, { byHand: { P1: rows } }), undefined, undefined);
    expect(value?.open).toEqual(['P1', 'P2']);
    expect(value?.job.primaries.byHand).toEqual({});
    expect(value?.job.builtParts?.['P1']?.length).toBeCloseTo(station, 9);
  });
});
