import { existsSync } from 'node:fs';
import path from 'node:path';
import type { FileRecord, KeptParts } from '../files/index.js';
import type { Job } from '../job/job.js';
import type { CentreLines } from '../design/routes-by-hand.js';
import type { JobOrder } from './job-order.js';
import { routesName } from './routes-file.js';

/** What is made along the routes: how its files are filed in the manifest, and what a person calls it. */
const alongRoutes: readonly { readonly filed: RegExp; readonly called: string }[] = [
  { filed: /^primary-/, called: 'tubes' },
  { filed: /^cradle-/, called: 'cradles' },
  { filed: /^cut-list$/, called: 'the cut list' },
  { filed: /^routes$/, called: 'the routes' },
];

/**
 * What a build leaves as it lies where the job means to have routes and none that fit it: the tubes and what is
 * made along them. Nobody can make these anew before routing, and what was cut or printed from them still is.
 * @returns undefined where there are routes, or the job is to have none
 */
export function keptWithoutRoutes(
  job: Job,
  lines: CentreLines,
  { file, shown }: Pick<JobOrder, 'file' | 'shown'>,
): KeptParts | undefined {
  const frozen = path.join(path.dirname(file), routesName);
  if (lines.size > 0 || !(existsSync(frozen) || job.rack !== undefined)) return undefined;
  return {
    of: (part) => alongRoutes.some(({ filed }) => filed.test(part)),
    told: (stale, folder) => ({
      code: 'file/stale',
      severity: 'warning',
      what: `${countOf(stale)} of the job as it was`,
      why: 'no tube, cradle or cut list of theirs fits the plates of this build',
      fix: `run \`tackwright route ${shown}\`, then build again`,
      place: { file: folder },
    }),
  };
}

/** `12 files of tubes and cradles are`. */
function countOf(stale: readonly FileRecord[]): string {
  const known = alongRoutes.filter(({ filed }) => stale.some(({ part }) => filed.test(part)));
  const others = stale.filter(({ part }) => !alongRoutes.some(({ filed }) => filed.test(part)));
  const names = [...known.map(({ called }) => called), ...new Set(others.map(({ part }) => part))];
  const last = names.length > 1 ? ` and ${names.pop()}` : '';
  return `${stale.length} ${stale.length === 1 ? 'file' : 'files'} of ${names.join(', ')}${last} ${stale.length === 1 ? 'is' : 'are'}`;
}
