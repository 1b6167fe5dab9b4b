import { workOff } from './crew.js';
import type { Rack } from '../../job/rack.js';
import type { RouteProblem } from './problem.js';
import { quickSearch, type RouteOptions } from './solve.js';
import { setProblem, type CollectorPose, type RoutableJob } from './set-problem.js';
import type { Task } from './team.js';

/** What a thread must know to work off the tasks of one job's search: as `routeJob` was given it. */
export interface TaskRoom {
  readonly job: RoutableJob;
  readonly rack: Rack;
  readonly options: RouteOptions;
}

/**
 * Works off tasks of one job. A thread sets the problem for itself and keeps it while the pose stays.
 * @returns what comes of a task; undefined once the search is stopped
 */
export function taskWorker({ job, rack, options }: TaskRoom): (task: Task) => unknown {
  const stop = options.stop ?? ((): boolean => false);
  let set: { readonly key: string; readonly problem: RouteProblem } | undefined;
  const problemAt = (pose: CollectorPose | undefined): RouteProblem => {
    const key = JSON.stringify(pose ?? 'own');
    if (set?.key !== key) set = { key, problem: setProblem(job, rack, options.fieldOf, pose) };
    return set.problem;
  };
  return (task) => {
    if (stop()) return undefined;
    const problem = problemAt(task.pose);
    if (task.kind === 'quick search') return quickSearch(problem, options);
    return workOff(problem, task.kind, task.order);
  };
}
