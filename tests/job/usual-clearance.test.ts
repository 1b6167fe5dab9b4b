import { expect, it } from 'vitest';
import { readJob } from '../../src/job/index.js';
import { wholeJob } from '../support/jobs.js';

it('clearances taken as usual are told once, each with its keep-out, its size and the line to write', () => {
  const hose =
    '  - { name: coolant hose, kind: coolant hose, capsule: { from: [0, 0, 400], to: [90, 0, 400], diameter: 30 } }';
  const text = wholeJob.replace('keep_outs:\n', () => `keep_outs:\n${hose}\n`);
  const told = readJob(text).problems.filter(({ code }) => code === 'job/usual-clearance');
  expect(told).toHaveLength(1);
  for (const name of ['"coolant hose"', '"steering shaft"']) expect(told[0]?.what).toContain(name);
  const { value } = readJob(text);
  for (const at of [0, 2])
    expect(told[0]?.fix).toContain(`clear: ${value?.keepOuts[at]?.clear ?? NaN} at keep_outs.${at}`);
  expect(told[0]?.place?.path).toBe('keep_outs.0');
});
