import type { jobPages } from '../../../src/base/codes/job.js';

/** A good job made bad: what is replaced by what, and the code, path and text that must be pointed at. */
export interface Broken {
  readonly code: keyof typeof jobPages;
  readonly job?: string;
  readonly from: string;
  readonly to: string;
  readonly path: string;
  /** Text (after the change) at whose start the place must lie; `''`: no more than a line is asserted. */
  readonly at: string;
  readonly says?: RegExp;
}
