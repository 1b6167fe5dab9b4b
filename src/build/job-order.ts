import type { DxfOptions } from '../files/index.js';
import type { Format } from './formats.js';
import type { Watch } from './report.js';

/** A job file to be built. */
export interface JobOrder extends Watch {
  /** Absolute path of the job file, and what the user calls it. */
  readonly file: string;
  readonly shown: string;
  /** `path=value` settings over the file's own. */
  readonly set: readonly string[];
  readonly only: readonly string[] | undefined;
  readonly formats: readonly Format[] | undefined;
  /** Where to write; `exports/<job>` below `root` where nothing is said. */
  readonly folder: string | undefined;
  readonly root: string;
  readonly dxf: DxfOptions;
  /** Whether a report without the parts themselves will do where nothing has changed. */
  readonly brief: boolean;
}
