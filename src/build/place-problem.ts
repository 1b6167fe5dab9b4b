import type { Problem } from '../base/problems.js';
import type { ReadJob } from '../job/index.js';

/** Gives a problem found by the design its line in the job file; one that names its own file keeps it. */
export function placeProblem(problem: Problem, file: string, locate: ReadJob['locate']): Problem {
  if (problem.place?.file !== undefined) return problem;
  const key = problem.place?.path;
  return { ...problem, place: key === undefined ? { file } : { file, path: key, ...locate(key) } };
}
