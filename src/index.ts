/** The front door: what a parametric script imports from `tackwright`. */
export { type Problem, type Place, type Outcome } from './base/problems.js';
