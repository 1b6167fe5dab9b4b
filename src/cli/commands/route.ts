import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import path from 'node:path';
import { type Command, Option } from 'commander';
import { exitCodeOf, Refusal } from '../../base/problems.js';
import { tidy } from '../../base/numbers.js';
import type { Effort } from '../../design/route/index.js';
import { noJobFile } from '../../build/no-job-file.js';
import { roundingText } from '../../build/rounding-text.js';
import { gather } from '../options.js';
import { changeLines, routeLines } from '../say-routes.js';
import { countText, problemText } from '../say-problems.js';
import { serviceLines } from '../say-service.js';
import type { Session } from '../session.js';
import { voiceOf } from '../shell.js';

interface RouteOptions {
  readonly set?: string[];
  readonly only?: string;
  readonly seed: string;
  readonly effort: Effort;
  readonly threads?: string;
  readonly record?: string;
  readonly json?: boolean;
}

/** Threads at most, and as many as are taken unasked where the machine has the cores. */
const MOST_THREADS = 16;
const USUAL_THREADS = 4;

/** `route JOB`: finds equal-length primaries and freezes them beside the job. */
export function addRoute(program: Command, session: Session): void {
  program
    .command('route')
    .description('find primaries of one length with the fewest welds; writes routes.yaml beside the job')
    .argument('<job>', 'the job file, with ports, tube, collector, length and rack')
    .option('--set <path=value>', 'change a value for this search (may be repeated)', gather)
    .option('--seed <n>', 'another seed looks elsewhere; the same seed gives the same routes', '1')
    .addOption(
      new Option('--effort <how>', 'how hard to look')
        .choices(['quick', 'default', 'thorough'])
        .default('default'),
    )
    .option('--only <primaries>', 'route these again and leave the others as they are frozen: P2 or P2,P3')
    .option(
      '--threads <n>',
      `how many threads look, 1 to ${MOST_THREADS}; the routes are the same (default: one a core, at most ${USUAL_THREADS})`,
    )
    .option('--record <file>', "write the record as JSON there and leave the job's folder alone")
    .option('--json', 'print a summary as JSON, for other programs')
    .action((file: string, options: RouteOptions) => run(file, options, session));
}

async function run(shown: string, options: RouteOptions, { shell, leave }: Session): Promise<void> {
  const { say, complain, progress, paint, paintError } = voiceOf(shell);
  const file = path.resolve(shell.folder, shown);
  const threads = options.threads ?? String(Math.min(USUAL_THREADS, availableParallelism()));
  const record = options.record === undefined ? undefined : path.resolve(shell.folder, options.record);
  refuse(file, shown, { seed: options.seed, record }, threads);
  const { routeJobFile } = await import('../../build/route-job.js');
  const { job, result, standings, changes, fieldOf, written, movedTo, problems } = await routeJobFile({
    file,
    shown,
    set: options.set ?? [],
    only: options.only?.split(',').map((each) => each.trim()),
    seed: Number(options.seed),
    effort: options.effort,
    threads: Number(threads),
    record,
    onProgress: (told) => {
      if (told.freeing)
        return progress(`nothing found; change ${told.stage} of at most ${told.stages} is tried`);
      const best =
        told.welds === undefined ? 'nothing yet' : `${told.welds} welds, ${tidy(told.length ?? NaN, 0)} mm`;
      const bound = told.bound === undefined ? '' : `, at least ${told.bound} needed`;
      progress(`stage ${told.stage} of ${told.stages}: ${best}${bound}`);
    },
    onStop: (stop) => shell.onInterrupt?.(stop),
  });
  const code = exitCodeOf(problems);
  leave(code);
  const inView = (place: string): string => path.relative(shell.folder, place);
  if (options.json) {
    const { record: found, ...rest } = result ?? { record: undefined };
    const summary = {
      ok: code === 0,
      job: job?.name,
      ...rest,
      routes: standings,
      changes,
      length: found?.length,
      written: written && inView(written),
    };
    say(JSON.stringify({ ...summary, problems, exit: code }, null, 2));
    return;
  }
  if (problems.length > 0) complain(problemText(problems, paintError));
  if (result?.record === undefined || written === undefined) {
    complain(`${countText(problems)}; nothing was written.`);
    return;
  }
  for (const line of routeLines(result, standings, paint)) say(line);
  if (result.rounding) say(roundingText(result.rounding));
  for (const line of changeLines(changes)) say(line);
  if (job !== undefined) {
    const { serviceOfRoute } = await import('../../build/service.js');
    const { service, problems: fitting } = serviceOfRoute(job, result.record, { file, shown }, fieldOf);
    if (service !== undefined) for (const line of serviceLines(service, paint)) say(line);
    if (fitting.length > 0) complain(problemText(fitting, paintError));
  }
  if (movedTo !== undefined) say(`The routes of before are kept in ${inView(movedTo)}.`);
  say(`Frozen in ${inView(written)}.`);
}

function refuse(
  file: string,
  shown: string,
  { seed, record }: Pick<RouteOptions, 'seed' | 'record'>,
  threads: string,
): void {
  const absent = noJobFile(file, shown);
  if (absent !== undefined) throw new Refusal([absent]);
  if (record !== undefined && !existsSync(path.dirname(record)))
    throw new Refusal([
      {
        code: 'file/cannot-write',
        severity: 'error',
        what: `there is no folder ${path.dirname(record)} for --record`,
        why: 'the search would end with nowhere to write what it found',
        fix: 'make that folder first, or name a file in one that is there',
      },
    ]);
  if (!/^\d{1,9}$/.test(seed))
    throw new Refusal([
      {
        code: 'build/bad-dimension',
        severity: 'error',
        what: `--seed ${seed} is no whole number`,
        why: 'the search draws its tries from it, so that it can be repeated',
        fix: 'give --seed 1, or any whole number up to nine digits',
      },
    ]);
  if (!/^\d{1,2}$/.test(threads) || Number(threads) < 1 || Number(threads) > MOST_THREADS)
    throw new Refusal([
      {
        code: 'build/bad-dimension',
        severity: 'error',
        what: `--threads ${threads} is no whole number from 1 to ${MOST_THREADS}`,
        why: 'every thread beyond the cores of the machine only waits',
        fix: 'leave it out, or give --threads 2',
      },
    ]);
}
