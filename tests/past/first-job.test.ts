import { expect, it } from 'vitest';
import { newJobText } from '../../src/build/new-job.js';
import { readJob } from '../../src/job/index.js';

const text = newJobText({ name: 'trial', cylinders: 4, units: 'mm' }, 'job.schema.json');

it('a first job as `new` writes it has nothing to warn of: room for sleeves is judged without the last digit', () => {
  expect(readJob(text).problems).toEqual([]);
});

it('a decimal comma between braces is told as such, not as a strange key', () => {
  const { problems } = readJob(text.replace('pitch: 92', 'pitch: 92,5'));
  expect(problems.map((problem) => problem.fix)).toEqual(['write decimals with a point, such as 92.5']);
  expect(problems[0]?.place?.line).toBe(text.split('\n').findIndex((line) => line.includes('pitch: 92')) + 1);
});
