import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import {
  HeadNotCleared,
  routeJob,
  type Effort,
  type RoutableJob,
  type RouteResult,
  type TaskRoom,
  type Team,
} from '../design/route/index.js';
import type { Rack } from '../job/index.js';
import { fieldsOf, type KeepOutMesh } from './keep-out-fields.js';

/** How the search stands: which stage of growing effort, and the best answer so far. */
export interface RouteProgress {
  readonly stage: number;
  readonly stages: number;
  readonly welds?: number;
  readonly bound?: number;
  readonly length?: number;
  /** Nothing was found, and changes are being tried: `stage` of `stages` at the most. */
  readonly freeing?: boolean;
}

/** A search to be run. */
export interface SearchOrder {
  readonly job: RoutableJob;
  readonly rack: Rack;
  readonly seed: number;
  readonly effort: Effort;
  readonly jobHash: string;
  /** How many threads search; the answer is the same. */
  readonly threads: number;
  /** The keep-outs that are files. */
  readonly meshes: readonly KeepOutMesh[];
}

/** What goes over to the worker, and what it sends back. */
export type SearchInput = SearchOrder & { readonly stop: SharedArrayBuffer };
export type SearchMessage =
  | { readonly progress: RouteProgress }
  | { readonly result: RouteResult }
  | { readonly heads: readonly string[] };

/** What a thread must know of an order to work on it. */
export async function taskRoomOf(
  input: SearchOrder & { readonly stop?: SharedArrayBuffer },
): Promise<TaskRoom> {
  const { job, rack, seed, effort, jobHash, meshes } = input;
  const stopped = new Int32Array(input.stop ?? new ArrayBuffer(4));
  const stop = (): boolean => Atomics.load(stopped, 0) !== 0;
  const fieldOf = await fieldsOf(meshes);
  return { job, rack, options: { seed, effort, jobHash, stop, fieldOf } };
}

/** The search in this thread, beside a team if there is one: what the worker runs. */
export function searchHere(
  { job, rack, options }: TaskRoom,
  onProgress: (told: RouteProgress) => void,
  team?: Team,
): SearchMessage {
  try {
    return { result: routeJob(job, rack, { ...options, onProgress, ...(team && { team }) }) };
  } catch (reason) {
    if (!(reason instanceof HeadNotCleared)) throw reason;
    return { heads: reason.ports };
  }
}

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
  if (worker === undefined) return searchHere(await taskRoomOf(order), onProgress);
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
