import { parentPort, workerData } from 'node:worker_threads';
import { HeadNotCleared } from '../design/route/index.js';
import { searchHere, type SearchInput, type SearchMessage } from './route-search.js';

// The search of one job, in a thread of its own.
const input = workerData as SearchInput;
const stopped = new Int32Array(input.stop);
const send = (message: SearchMessage): void => parentPort?.postMessage(message);
try {
  send({
    result: await searchHere(
      input,
      (progress) => send({ progress }),
      () => Atomics.load(stopped, 0) !== 0,
    ),
  });
} catch (reason) {
  if (!(reason instanceof HeadNotCleared)) throw reason;
  send({ heads: reason.ports });
}
