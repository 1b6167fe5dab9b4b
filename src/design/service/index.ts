export { serviceOf } from './service.js';
export { FAR } from './passage.js';
export { type NeighbourOut, type Service, type ServiceStep } from './steps.js';
export { wayWords } from './ways.js';
