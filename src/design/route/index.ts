export type { Rounding } from './snap.js';
export { routeJob, type RouteResult } from './route-job.js';
export { type Effort, type RouteOptions } from './solve.js';
export {
  isRoutable,
  setProblem,
  HeadNotCleared,
  headNotCleared,
  type FieldOf,
  type RoutableJob,
} from './set-problem.js';
export { type Blockage, type Blocker } from './blockers.js';
export { type Certificate } from './certificates.js';
export { type Change } from './possible-changes.js';
export { type WouldFree } from './what-would-free.js';
export { type NearestThing } from './nearest.js';
export { type PrimaryRecord, type RouteRecord } from './record.js';
export { asRouted, checkRecord, linesOfRecord, rowsOfRecord } from './frozen.js';
export { readRouteRecord } from './read-record.js';
export { changesBetween, type RouteChange } from './changes.js';
export { whatStays } from './what-stays.js';
export { standingOf, type PrimaryStanding } from './standing.js';
export { standingProblems, type RoutesFrom } from './standing-problems.js';
export { type Task, type Team } from './team.js';
export { taskWorker, type TaskRoom } from './work-off-task.js';
