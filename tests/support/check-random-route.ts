import { isRoutable, routeJob, type Effort, type RouteResult } from '../../src/design/route/index.js';
import { readJob } from '../../src/job/index.js';
import { readRack } from '../../src/job/rack-read.js';
import { judgeRoutes, longestLeg, weldsByRule, type JudgedRecord } from './judge.js';
import { randomRouteJob } from './random-route-job.js';
import { headerByTrial } from './route-by-trial.js';

/** What came of routing a random job, and what of it is certainly wrong. */
export interface CheckedRoute {
  readonly seed: number;
  readonly primaries: number;
  readonly planted: boolean;
  readonly result: RouteResult;
  /** CPU seconds of the routing alone. */
  readonly seconds: number;
  /** Empty where nothing is wrong. */
  readonly wrong: readonly string[];
  /** Where the router found nothing: whether plain trial did, or a header was planted. */
  readonly otherwise: boolean;
}

const cpu = (): number => (process.cpuUsage().user + process.cpuUsage().system) / 1e6;

/** Trial held against a job that is said to be impossible, and against one where nothing was found. */
const trial = {
  'proved impossible': { tries: 1500, keep: 40, lengths: 4 },
  'not found': { tries: 250, keep: 16, lengths: 3 },
} as const;

/** The random job of a seed as the command would read it. */
export function readRandomJob(seed: number) {
  const written = randomRouteJob(seed);
  const job = readJob(written.text);
  const rack = readRack(written.rackText);
  if (job.value === undefined || rack.value === undefined || !isRoutable(job.value))
    throw new Error(`random job ${seed}: ${JSON.stringify([...job.problems, ...rack.problems])}`);
  return { ...written, job: job.value, rack: rack.value };
}

/** Routes the random job of a seed, and judges what is said of it apart from the router. */
export function checkRandomRoute(seed: number, effort: Effort): CheckedRoute {
  const { text, rackText, planted, job, rack } = readRandomJob(seed);
  const from = cpu();
  const result = routeJob(job, rack, { seed: 1, effort, explain: effort !== 'quick' });
  const seconds = cpu() - from;
  const wrong: string[] = [];
  const leg = longestLeg(rackText);
  const weldsOf = ({ primaries }: JudgedRecord): number =>
    primaries.reduce((sum, { rows }) => sum + weldsByRule(rows, leg), 0);
  if (result.record) {
    const verdict = judgeRoutes(text, rackText, result.record);
    wrong.push(...verdict.faults);
    if (!(result.welds !== undefined && result.welds <= verdict.welds)) wrong.push(`${result.welds} welds`);
    if (!(result.bound <= (result.welds ?? NaN))) wrong.push(`bound of ${result.bound} above its own answer`);
  }
  const { outcome } = result;
  const found =
    outcome === 'routed'
      ? undefined
      : (planted ?? headerByTrial(text, rackText, { seed, ...trial[outcome] })?.record);
  const other = planted ?? found;
  if (found && outcome === 'proved impossible')
    wrong.push(`said to be impossible: ${JSON.stringify(result.proofs)}`);
  if (other && !(result.bound <= weldsOf(other)))
    wrong.push(`bound of ${result.bound}, but ${weldsOf(other)} do`);
  return {
    seed,
    primaries: job.ports.length,
    planted: planted !== undefined,
    result,
    seconds,
    wrong,
    otherwise: found !== undefined,
  };
}
