import { readFileSync } from 'node:fs';
import { isRoutable, type RoutableJob } from '../../src/design/route/index.js';
import { readJob } from '../../src/job/index.js';
import { readRack } from '../../src/job/rack-read.js';
import type { Rack } from '../../src/job/rack.js';

export const caseFolder = (name: string): string => `tests/routing-cases/${name}`;

export const caseText = (name: string): string => readFileSync(`${caseFolder(name)}/job.yaml`, 'utf8');

/** A routing case, read as a user's job would be; `text` stands in for its job file. */
export function routingCase(
  name: string,
  text = caseText(name),
): { readonly job: RoutableJob; readonly rack: Rack } {
  const job = readJob(text);
  const rack = readRack(readFileSync(`${caseFolder(name)}/rack.yaml`, 'utf8'));
  if (job.value === undefined || rack.value === undefined || !isRoutable(job.value))
    throw new Error(`${name}: ${JSON.stringify([...job.problems, ...rack.problems])}`);
  return { job: job.value, rack: rack.value };
}
