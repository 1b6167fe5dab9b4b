import path from 'node:path';
import type { Command } from 'commander';
import { familyNames } from '../../build/choices.js';
import { finishBuild } from '../finish.js';
import { addFileOptions, gather, listOf, readFileOptions, type FileOptions } from '../options.js';
import type { Session } from '../session.js';
import { voiceOf } from '../shell.js';

interface BuildOptions extends FileOptions {
  readonly set?: string[];
  readonly only?: string;
  readonly rackAfter?: string;
}

/** `build JOB`: from the job file to measured files in exports/<job>. */
export function addBuild(program: Command, session: Session): void {
  const command = program
    .command('build')
    .description('make the files of a job and measure them')
    .argument('<job>', 'the job file, such as fixtures/hillclimb-four/job.yaml')
    .option(
      '--set <path=value>',
      'change a value for this build: ports.row.pitch=94mm (may be repeated)',
      gather,
    )
    .option('--only <list>', `only these parts: ${familyNames.join(',')}`)
    .option('--rack-after <file>', 'also write what the rack holds once all is sawn, as a new rack file');
  addFileOptions(command).action(async (file: string, options: BuildOptions) => {
    const { shell } = session;
    const voice = voiceOf(shell);
    // Only now, so that help and mistakes in the command line are told at once.
    const { buildJob } = await import('../../build/build-job.js');
    const { refuseOldRack, writeRackAfter } = await import('../../build/rack-after.js');
    const { rackAfter: to } = options;
    const rack = to === undefined ? undefined : { file: path.resolve(shell.folder, to), shown: to };
    if (rack !== undefined) refuseOldRack(rack);
    const order = { file: path.resolve(shell.folder, file), shown: file };
    const report = await buildJob({
      ...order,
      set: options.set ?? [],
      only: options.only === undefined ? undefined : listOf(options.only),
      ...readFileOptions(options, shell),
      brief: options.json !== true && rack === undefined,
      now: shell.now,
      onStep: (step) => voice.progress(`${step.what.padEnd(44)} ${step.ms.toFixed(0).padStart(6)} ms`),
    });
    const { job, cutList } = report;
    const unwritten = rack !== undefined && report.ok ? writeRackAfter(rack, job, cutList, order) : [];
    const problems = [...report.problems, ...unwritten];
    finishBuild({ ...report, problems }, options.json === true, session);
  });
}
