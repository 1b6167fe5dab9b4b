export { jobFrom, readJob, type ReadJob, type ReadOptions } from './read-job.js';
