import { parentPort, workerData } from 'node:worker_threads';
import { taskWorker } from '../design/route/index.js';
import { searchHere, taskRoomOf, type SearchInput, type SearchMessage } from './route-search.js';
import { teamFor } from './route-team.js';

// The search of one job, in a thread of its own, which may have mates.
const input = workerData as SearchInput;
const send = (message: SearchMessage): void => parentPort?.postMessage(message);
const room = await taskRoomOf(input);
const team = teamFor(input, input.threads, taskWorker(room));
send(searchHere(room, (progress) => send({ progress }), team));
