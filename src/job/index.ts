export { jobFrom, readJob, type ReadJob, type ReadOptions } from './read-job.js';
export { rackFits } from './rack-check.js';
export { readRack, type ReadRack } from './rack-read.js';
export { type Rack, type RackBend, type RackStraight, type Saw } from './rack.js';
