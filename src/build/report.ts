import type { Problem } from '../base/problems.js';
import type { CutFigures, CutList } from '../design/pieces/index.js';
import type { Part } from '../design/parts.js';
import type { FileRecord, Measure } from '../files/index.js';
import type { Job } from '../job/job.js';

/** One step of the work and how long it took, for the progress lines. */
export interface Step {
  readonly what: string;
  readonly ms: number;
}

/** What came of a build. `ok` is false where anything stopped it; nothing was then replaced. */
export interface BuildReport {
  readonly ok: boolean;
  /** Name of the job or script. */
  readonly name: string;
  readonly folder: string;
  readonly job: Job | undefined;
  readonly parts: readonly Part[];
  readonly files: readonly FileRecord[];
  /** Names of parts whose files were good already and were left as they are. */
  readonly reused: readonly string[];
  readonly measures: readonly Measure[];
  /** What is sawn from what, where routes and rack allow it. */
  readonly cutList: CutList | undefined;
  /** What that comes to. */
  readonly cutFigures?: CutFigures | undefined;
  readonly problems: readonly Problem[];
}

/** How a build tells what it is doing, and by whose clock. */
export interface Watch {
  readonly now: () => number;
  readonly onStep: (step: Step) => void;
}

/** Runs a piece of work and tells how long it took. */
export async function timed<T>(watch: Watch, what: string, work: () => T | Promise<T>): Promise<T> {
  const start = watch.now();
  const made = await work();
  watch.onStep({ what, ms: watch.now() - start });
  return made;
}
