// The router on random jobs with clutter, every answer judged apart from it. Not part of the suite.
//   npm run bench -- random-jobs [count] [first seed] [effort]
import { cpus } from 'node:os';
import type { Effort } from '../../src/design/route/index.js';
import { checkRandomRoute, type CheckedRoute } from '../support/check-random-route.js';

const [count = '100', first = '1', effort = 'default'] = process.argv.slice(2);
const all: CheckedRoute[] = [];
console.log('seed  ports  outcome            welds  bound  length   seconds');
for (let seed = Number(first); seed < Number(first) + Number(count); seed++) {
  const one = checkRandomRoute(seed, effort as Effort);
  all.push(one);
  const { result, planted, otherwise, wrong } = one;
  console.log(
    [
      String(seed).padEnd(5),
      `${one.primaries}${planted ? ' p' : '  '}`.padEnd(6),
      result.outcome.padEnd(18),
      String(result.welds ?? '-').padEnd(6),
      String(result.bound).padEnd(6),
      (result.record?.length.toFixed(1) ?? '-').padEnd(8),
      one.seconds.toFixed(2).padEnd(7),
      otherwise ? 'a header exists' : '',
      result.proofs[0]?.kind ?? '',
      wrong.length > 0 ? `WRONG: ${wrong.join('; ')}` : '',
    ].join(' '),
  );
}

const share = (list: readonly CheckedRoute[], is: (one: CheckedRoute) => boolean): string =>
  `${list.filter(is).length} of ${list.length}`;
const seconds = all.map((one) => one.seconds).sort((a, b) => a - b);
const at = (part: number): string => (seconds[Math.ceil(part * seconds.length) - 1] ?? NaN).toFixed(1);
const outcome = (name: string) => (one: CheckedRoute) => one.result.outcome === name;
const routed = all.filter(outcome('routed'));
const sum = (of: (one: CheckedRoute) => number): number => routed.reduce((total, one) => total + of(one), 0);
const planted = all.filter((one) => one.planted);
const blind = all.filter((one) => !one.planted);
console.log(`\nnode ${process.version}, ${cpus()[0]?.model ?? 'unknown processor'}, effort ${effort}`);
console.log(`with a planted header: ${share(planted, outcome('routed'))} solved`);
console.log(
  `with clutter as it fell: ${share(blind, outcome('routed'))} solved, ${share(blind, outcome('proved impossible'))} proved impossible, ${share(blind, outcome('not found'))} not found (${blind.filter((one) => one.otherwise).length} of them though plain trial finds a header)`,
);
console.log(`CPU seconds: median ${at(0.5)}, 90 % ${at(0.9)}, most ${at(1)}`);
console.log(
  `welds of those solved: ${sum(({ result }) => result.welds ?? 0)}, bounds ${sum(({ result }) => result.bound)}`,
);
console.log(`wrong answers: ${all.filter((one) => one.wrong.length > 0).length}`);
