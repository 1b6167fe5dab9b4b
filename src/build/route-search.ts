import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { routeJob, type Effort, type RoutableJob, type RouteResult } from '../design/route/index.js';
import type { Rack } from '../job/index.js';
import { fieldsOf, type KeepOutMesh } from './keep-out-fields.js';

/** How the search stands: which stage of growing effort, and the best answer so far. */
export interface RouteProgress {
  readonly stage: number;
  readonly stages: number;
  readonly welds?: number;
  readonly bound?: number;
  readonly length?: number;
}

/** A search to be run. */
export interface SearchOrder {
  readonly job: RoutableJob;
  readonly rack: Rack;
  readonly seed: number;
  readonly effort: Effort;
  readonly jobHash: string;
  /** The keep-outs that are files. */
  readonly meshes: readonly KeepOutMesh[];
}

/** What goes over to the worker, and what it sends back. */
export type SearchInput = SearchOrder & { readonly stop: SharedArrayBuffer };
export type SearchMessage =
  | { readonly progress: RouteProgress }
  | { readonly result: RouteResult }
  | { readonly heads: readonly string[] };

/** The search in this thread: what the worker runs. */
export const searchHere = async (
  { job, rack, seed, effort, jobHash, meshes }: SearchOrder,
  onProgress: (told: RouteProgress) => void,
  stop: () => boolean,
): Promise<RouteResult> => {
  const fieldOf = await fieldsOf(meshes);
  return routeJob(job, rack, { seed, effort, jobHash, onProgress, stop, fieldOf });
};

/**
 * Searches in a worker thread, so that this one stays free to hear Ctrl-C: `onStop` is handed a function that
 * ends the search with the best found so far. The same seed gives the same answer in whichever thread.
 */
export async function searchAside(
  order: SearchOrder,
  onProgress: (told: RouteProgress) => void,
  onStop: (stop: () => void) => void,
): Promise<SearchMessage> {
  const file = fileURLToPath(new URL('./route-worker.js', import.meta.url));
  const beside = fileURLToPath(new URL('../route-worker.js', import.meta.url));
  const worker = [file, beside].find((each) => existsSync(each));
  // Run from the sources, as the tests do, there is no worker file: search here.
  if (worker === undefined) return { result: await searchHere(order, onProgress, () => false) };
  const stop = new SharedArrayBuffer(4);
  onStop(() => Atomics.store(new Int32Array(stop), 0, 1));
  return new Promise((resolve, reject) => {
    const thread = new Worker(worker, { workerData: { ...order, stop } satisfies SearchInput });
    thread.on('message', (message: SearchMessage) => {
      if ('progress' in message) onProgress(message.progress);
      else resolve(message);
    });
    thread.on('error', reject);
    thread.on('exit', (code) => reject(new Error(`the search ended without an answer (${code})`)));
  });
}
