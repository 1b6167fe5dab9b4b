import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Command, Option } from 'commander';
import { Refusal } from '../../base/problems.js';
import { newJobText, newRackText, type NewJob } from '../../build/new-job.js';
import type { Session } from '../session.js';
import { voiceOf } from '../shell.js';

/** `new NAME`: a folder with a first job to edit. Never writes over anything. */
export function addNew(program: Command, { shell }: Session): void {
  program
    .command('new')
    .description('make a folder with a first job file to edit')
    .argument('<name>', 'the job, such as my-header; letters, digits, - and _')
    .addOption(new Option('--cylinders <n>', 'how many ports').default('4'))
    .addOption(new Option('--units <unit>', 'unit of bare numbers').choices(['mm', 'in']).default('mm'))
    .option('--json', 'print what was written as JSON')
    .action((name: string, options: { cylinders: string; units: 'mm' | 'in'; json?: boolean }) => {
      const { say } = voiceOf(shell);
      const job = { name, cylinders: Number(options.cylinders), units: options.units };
      const folder = path.resolve(shell.folder, name);
      refuse(job, folder);
      const schema = schemaFile();
      mkdirSync(folder, { recursive: true });
      const files = [
        ['job.yaml', newJobText(job, path.relative(folder, schema).replaceAll('\\', '/'))],
        ['rack.yaml', newRackText(job)],
      ] as const;
      for (const [file, text] of files) writeFileSync(path.join(folder, file), text, { flag: 'wx' });
      if (options.json) say(JSON.stringify({ folder: name, files: files.map(([file]) => file) }, null, 2));
      else say(`${name}/job.yaml and ${name}/rack.yaml are there. Next: tackwright check ${name}/job.yaml`);
    });
}

/**
 * The JSON Schema for editors: it lies in dist/ beside the program, or one up from its shared code, or, run from
 * the sources, in dist/ at the root.
 */
function schemaFile(): string {
  const places = ['./job.schema.json', '../job.schema.json', '../../../dist/job.schema.json'];
  const files = places.map((place) => fileURLToPath(new URL(place, import.meta.url)));
  return files.find((file) => existsSync(file)) ?? path.resolve(files[0] ?? '');
}

function refuse({ name, cylinders }: NewJob, folder: string): void {
  const wrong = !/^[A-Za-z0-9][A-Za-z0-9_-]{0,60}$/.test(name);
  if (wrong || !Number.isInteger(cylinders) || cylinders < 1 || cylinders > 8)
    throw new Refusal([
      {
        code: 'build/bad-dimension',
        severity: 'error',
        what: wrong
          ? `"${name}" cannot name a job`
          : `--cylinders ${cylinders} is not a whole number from 1 to 8`,
        why: wrong
          ? 'the name becomes a folder and is etched on the parts'
          : 'a header has one primary per port',
        fix: wrong
          ? 'use letters, digits, - and _, such as my-header'
          : 'give --cylinders 4, or as many as you have',
      },
    ]);
  if (existsSync(folder))
    throw new Refusal([
      {
        code: 'build/exists',
        severity: 'error',
        what: `${name} is there already`,
        why: 'a new job must not write over your work',
        fix: 'choose another name',
        place: { file: name },
      },
    ]);
}
