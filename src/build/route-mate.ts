import { workerData } from 'node:worker_threads';
import { taskRoomOf } from './route-search.js';
import { taskWorker } from '../design/route/index.js';
import { DONE, NEXT, type Batch, type Made, type MateInput } from './route-team.js';

// A thread that works off tasks of a search beside others: whichever is the next that nobody has begun.
const { input, port } = workerData as MateInput;
const workOff = taskWorker(await taskRoomOf(input));
const attempt = (batch: number, at: number, work: () => unknown): Made => {
  try {
    return { batch, at, made: work(), failed: false };
  } catch {
    // It is tried again where the search runs, which then tells what is the matter.
    return { batch, at, made: undefined, failed: true };
  }
};
port.on('message', ({ batch, tasks, counts }: Batch) => {
  for (;;) {
    const at = Atomics.add(counts, NEXT, 1);
    const task = tasks[at];
    if (task === undefined) return;
    port.postMessage(attempt(batch, at, () => workOff(task)));
    Atomics.add(counts, DONE, 1);
    Atomics.notify(counts, DONE);
  }
});
