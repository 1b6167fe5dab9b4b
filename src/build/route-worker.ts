import { parentPort, workerData } from 'node:worker_threads';
import { HeadNotCleared, taskWorker } from '../design/route/index.js';
import { searchHere, taskRoomOf, type SearchInput, type SearchMessage } from './route-search.js';
import { teamFor } from './route-team.js';

// The search of one job, in a thread of its own, which may have mates.
const input = workerData as SearchInput;
const send = (message: SearchMessage): void => parentPort?.postMessage(message);
try {
  const room = await taskRoomOf(input);
  const team = teamFor(input, input.threads, taskWorker(room));
  send({ result: searchHere(room, (progress) => send({ progress }), team) });
} catch (reason) {
  if (!(reason instanceof HeadNotCleared)) throw reason;
  send({ heads: reason.ports });
}
