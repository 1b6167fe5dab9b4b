import type { Problem } from '../base/problems.js';
import type { ReadJob } from '../job/index.js';

/**
 * Gives a problem found by the design its line in the job file, or in whichever file `locate` reads. One that
 * names another file keeps it.
 */
export function placeProblem(problem: Problem, file: string, locate: ReadJob['locate']): Problem {
  if (problem.place?.file !== undefined && problem.place.file !== file) return problem;
  if (problem.place?.line !== undefined) return problem;
  const key = problem.place?.path;
  return { ...problem, place: key === undefined ? { file } : { file, path: key, ...locate(key) } };
}
