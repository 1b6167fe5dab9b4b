export type { Rounding } from './snap.js';
export { routeJob, type Effort, type RouteOptions, type RouteResult } from './route-job.js';
export { isRoutable, setProblem, HeadNotCleared, type FieldOf, type RoutableJob } from './set-problem.js';
export { type Blockage, type Blocker } from './blockers.js';
export { type Certificate } from './certificates.js';
export { type NearestThing } from './nearest.js';
export { type PrimaryRecord, type RouteRecord } from './record.js';
export { asRouted, checkRecord, linesOfRecord, rowsOfRecord } from './frozen.js';
export { readRouteRecord } from './read-record.js';
