import path from 'node:path';
import type { Command } from 'commander';
import { exitCodeOf } from '../../base/problems.js';
import { tuningAdvice } from '../../design/tuning/index.js';
import { gather } from '../options.js';
import type { Session } from '../session.js';
import { cutListLines } from '../say-cut-list.js';
import { standingLines } from '../say-routes.js';
import { serviceLines } from '../say-service.js';
import { countText, problemText } from '../say-problems.js';
import { tuningLines } from '../say-tuning.js';
import { voiceOf } from '../shell.js';

/** `check JOB`: reads and designs everything, writes nothing. */
export function addCheck(program: Command, { shell, leave }: Session): void {
  program
    .command('check')
    .description('read a job and say what is wrong with it, or what it will make; writes nothing')
    .argument('<job>', 'the job file')
    .option('--set <path=value>', 'change a value for this check (may be repeated)', gather)
    .option('--json', 'print as JSON, for other programs')
    .action(async (file: string, options: { set?: string[]; json?: boolean }) => {
      const { checkJob } = await import('../../build/check-job.js');
      const { cutListOf } = await import('../../build/cut-list-of-job.js');
      const { serviceOfJob } = await import('../../build/service.js');
      const { say, complain, paint, paintError } = voiceOf(shell);
      const order = {
        file: path.resolve(shell.folder, file),
        shown: file,
        set: options.set ?? [],
        only: undefined,
      };
      const checked = await checkJob(order);
      const { job, designed } = checked;
      const cuts = await cutListOf(checked, order, false);
      const { service, problems: fitting } = serviceOfJob(checked, order, checked.fieldOf);
      const problems = [...checked.problems, ...cuts.problems, ...fitting];
      const code = exitCodeOf(problems);
      leave(code);
      const tuning = job && tuningAdvice(job);
      const parts = (designed?.parts ?? []).map(({ name, family, title }) => ({ name, family, title }));
      if (options.json) {
        const { defaults = [], guesses = [] } = job ?? {};
        say(
          JSON.stringify(
            {
              ok: code === 0,
              job: job?.name,
              parts,
              routes: checked.standings,
              cutFigures: cuts.figures,
              service,
              tuning,
              problems,
              defaults,
              guesses,
              exit: code,
            },
            null,
            2,
          ),
        );
        return;
      }
      if (problems.length > 0) complain(problemText(problems, paintError));
      if (code !== 0 || job === undefined) {
        complain(`${countText(problems)}.`);
        return;
      }
      for (const part of parts) say(`  ${paint.strong(part.name.padEnd(18))} ${part.title}`);
      if (job.guesses.length > 0) {
        say(`\n${job.guesses.length} values are guesses; measure them before you cut:`);
        for (const guess of job.guesses) say(`  ${guess.path.padEnd(34)} ${guess.value}`);
      }
      if (job.defaults.length > 0) {
        say(`\n${job.defaults.length} values were not given; these were taken:`);
        for (const taken of job.defaults) say(`  ${taken.path.padEnd(34)} ${taken.value}`);
      }
      for (const line of standingLines(checked.standings, paint)) say(line);
      if (cuts.list && cuts.figures)
        for (const line of cutListLines(cuts.list, cuts.figures, job.shop, paint)) say(line);
      if (service !== undefined) for (const line of serviceLines(service, paint)) say(line);
      for (const line of tuningLines(tuning, paint)) say(line);
      const told = countText(problems);
      say(
        `\n${paint.good('good')}  ${job.name}: ${parts.length} parts can be made${told === '' ? '' : ` (${told})`}`,
      );
    });
}
