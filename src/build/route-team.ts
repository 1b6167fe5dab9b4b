import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { MessageChannel, receiveMessageOnPort, Worker, type MessagePort } from 'node:worker_threads';
import type { Task, Team } from '../design/route/index.js';
import type { SearchInput } from './route-search.js';

/** The tasks of one batch, as every mate gets them. */
export interface Batch {
  readonly batch: number;
  readonly tasks: readonly Task[];
  /** NEXT: the first task that nobody has begun; DONE: how many the mates have sent back. */
  readonly counts: Int32Array;
}
export const NEXT = 0;
export const DONE = 1;

/** What comes of one task; undefined where it was stopped, or where the mate could not do it. */
export interface Made {
  readonly batch: number;
  readonly at: number;
  readonly made: unknown;
  readonly failed: boolean;
}

/** What a mate is given when it is made. */
export interface MateInput {
  readonly input: SearchInput;
  readonly port: MessagePort;
}

/** So long (ms) a mate is waited for in silence; then its tasks are worked off here as well. */
const PATIENCE = 20_000;

/** The file of a mate's thread; undefined where the program runs from its sources. */
const mateFile = (): string | undefined =>
  ['./route-mate.js', '../route-mate.js']
    .map((file) => fileURLToPath(new URL(file, import.meta.url)))
    .find((file) => existsSync(file));

/**
 * A team of threads for one search: this one and its mates, who each set the problem for themselves. Whoever is
 * free takes the next task; what comes of a task is the same in any thread, so the answer is, too.
 * @param workOff works off one task in this thread
 * @returns undefined for one thread, or where there is no file to start mates from
 */
export function teamFor(
  input: SearchInput,
  threads: number,
  workOff: (task: Task) => unknown,
): Team | undefined {
  const file = mateFile();
  if (threads <= 1 || file === undefined) return undefined;
  let ports: readonly MessagePort[] | undefined;
  let batch = 0;
  return {
    run: (tasks) => {
      ports ??= Array.from({ length: threads - 1 }, () => mate(file, input));
      const counts = new Int32Array(new SharedArrayBuffer(2 * Int32Array.BYTES_PER_ELEMENT));
      const order: Batch = { batch: batch++, tasks, counts };
      for (const port of ports) port.postMessage(order);
      return worked(order, ports, workOff);
    },
  };
}

function mate(file: string, input: SearchInput): MessagePort {
  const { port1, port2 } = new MessageChannel();
  const thread = new Worker(file, {
    workerData: { input, port: port2 } satisfies MateInput,
    transferList: [port2],
  });
  // Whatever becomes of a mate, what it does not send back is worked off here.
  thread.on('error', () => undefined);
  thread.unref();
  port1.unref();
  return port1;
}

/** Works off tasks beside the mates, and gathers what they have made. */
function worked(
  { batch, tasks, counts }: Batch,
  ports: readonly MessagePort[],
  workOff: (task: Task) => unknown,
): readonly unknown[] {
  const results = new Array<unknown>(tasks.length).fill(undefined);
  const open = new Set(tasks.keys());
  const here = (at: number): void => {
    results[at] = workOff(tasks[at] as Task);
    open.delete(at);
  };
  for (let at = Atomics.add(counts, NEXT, 1); at < tasks.length; at = Atomics.add(counts, NEXT, 1)) here(at);
  while (open.size > 0) {
    const done = Atomics.load(counts, DONE);
    for (const port of ports)
      for (let told = receiveMessageOnPort(port); told; told = receiveMessageOnPort(port)) {
        const { batch: of, at, made, failed } = told.message as Made;
        // A mate that was given up may send back what has been worked off since.
        if (of !== batch || !open.has(at)) continue;
        if (failed) here(at);
        else {
          results[at] = made;
          open.delete(at);
        }
      }
    if (open.size > 0 && Atomics.wait(counts, DONE, done, PATIENCE) === 'timed-out')
      here([...open][0] as number);
  }
  return results;
}
