// The router on every routing case: bends, welds, bound, length, least clearance, time. Not part of the suite.
//   npm run bench -- routing [cases, comma separated | all] [effort] [seeds, comma separated]
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { isRoutable, routeJob, type Effort } from '../../src/design/route/index.js';
import { readJob } from '../../src/job/index.js';
import { readRack } from '../../src/job/rack-read.js';
import { judge } from '../support/judge.js';

const root = 'tests/routing-cases';
const [asked = 'all', effort = 'default', seeds = '1'] = process.argv.slice(2);
const names = readdirSync(root, { withFileTypes: true })
  .filter((entry) => entry.isDirectory() && (asked === 'all' || asked.split(',').includes(entry.name)))
  .map((entry) => entry.name);
const seconds = () => process.cpuUsage().user / 1e6 + process.cpuUsage().system / 1e6;
let sum = 0;
const rows: string[] = [];
console.log('case      outcome            bends   welds  bound  length   spare  seconds  nodes  judged');
for (const name of names)
  for (const seed of seeds.split(',').map(Number)) {
    const folder = path.join(root, name);
    const job = readJob(readFileSync(`${folder}/job.yaml`, 'utf8')).value;
    const rack = readRack(readFileSync(`${folder}/rack.yaml`, 'utf8')).value;
    if (job === undefined || rack === undefined || !isRoutable(job))
      throw new Error(`${name} cannot be read`);
    const from = seconds();
    const trail: string[] = [];
    let first: number | undefined;
    const onProgress = (told: { stage: number; welds?: number; length?: number }) => {
      if (told.welds !== undefined) first ??= seconds() - from;
      trail.push(
        `${told.stage}: ${told.welds ?? '-'}@${told.length?.toFixed(0) ?? '-'} ${(seconds() - from).toFixed(1)}s`,
      );
    };
    const result = routeJob(job, rack, { seed, effort: effort as Effort, onProgress });
    const took = seconds() - from;
    const verdict = result.record && judge(folder, result.record);
    sum += result.welds ?? 0;
    const bends = result.record?.primaries.map(({ rows }) => (rows.length - 1) / 2).join('') ?? '-';
    const spare = Math.min(...result.nearest.map((near) => near.spare));
    const good = verdict && verdict.faults.length === 0 ? '' : ' not judged good';
    const cells = result.record
      ? [
          [...bends].reduce((all, each) => all + Number(each), 0),
          result.welds,
          result.bound,
          result.record.length.toFixed(1),
          spare.toFixed(2),
          first?.toFixed(1),
          `${took.toFixed(1)}${good}`,
          result.nodes,
        ]
      : [result.outcome, '', '', '', '', '', took.toFixed(1), result.nodes];
    rows.push(`| ${[name, ...cells].join(' | ')} |`);
    console.log(
      [
        name.padEnd(9),
        result.outcome.padEnd(18),
        bends.padEnd(7),
        String(result.welds ?? '-').padEnd(6),
        String(result.bound).padEnd(6),
        (result.record?.length.toFixed(1) ?? '-').padEnd(8),
        (Number.isFinite(spare) ? spare.toFixed(2) : '-').padEnd(6),
        took.toFixed(2).padEnd(8),
        String(result.nodes).padEnd(6),
        verdict
          ? verdict.faults.join('; ') || `good, ${verdict.welds} welds, ${verdict.spare.toFixed(2)} spare`
          : JSON.stringify(result.proofs[0] ?? ''),
        trail.join(' | '),
      ].join(' '),
    );
  }
console.log(`welds in all: ${sum}\n`);
console.log(
  '| case | bends | welds | proved bound | length mm | least spare mm | first, CPU s | all, CPU s | nodes |',
);
console.log('|---|---|---|---|---|---|---|---|---|');
console.log(rows.join('\n'));
