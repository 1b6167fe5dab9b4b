import path from 'node:path';
import type { Command } from 'commander';
import { tidy } from '../../base/numbers.js';
import { type Dimension, optionName, unitOf } from '../../build/dimension.js';
import type { AnyScript } from '../../build/script.js';
import { finishBuild } from '../finish.js';
import type { Session } from '../session.js';
import { addFileOptions, readFileOptions, type FileOptions } from '../options.js';
import { voiceOf } from '../shell.js';

/** `make SCRIPT --pitch 94`: runs a parametric script; every dimension it names is an option. */
export function addMake(program: Command, session: Session): void {
  const make = program
    .command('make')
    .description('run a parametric script; `make SCRIPT --help` lists its dimensions')
    .argument('<script>', 'a TypeScript or JavaScript file, such as scripts/port-flange.ts')
    .argument('[dimensions...]', 'the dimensions to set, such as --pitch 94')
    .helpOption(false)
    .allowUnknownOption()
    .passThroughOptions();
  make.action((script: string, rest: string[]) => run(make, script, rest, session));
}

async function run(make: Command, file: string, rest: readonly string[], session: Session): Promise<void> {
  const { shell } = session;
  const voice = voiceOf(shell);
  if (file === '--help' || file === '-h' || file.startsWith('-')) {
    make.outputHelp();
    session.leave(file.startsWith('-h') || file === '--help' ? 0 : 2);
    return;
  }
  const { loadScript } = await import('../../build/load-script.js');
  const { buildScript } = await import('../../build/build-script.js');
  const place = path.resolve(shell.folder, file);
  const script = await loadScript(place);
  const command = optionsOf(make, file, script);
  command.exitOverride().copyInheritedSettings(make.parent ?? make);
  command.parse([...rest], { from: 'user' });
  if (command.args.length > 0) {
    voice.complain(`What is ${command.args.join(' ')}? A dimension is given as --name value.`);
    session.leave(2);
    return;
  }
  const options = command.opts<FileOptions & Record<string, unknown>>();
  const given = Object.fromEntries(
    Object.keys(script.dimensions).flatMap((name) => {
      const value = options[name];
      return typeof value === 'string' ? [[name, value]] : [];
    }),
  );
  const report = await buildScript({
    script,
    file: place,
    given,
    ...readFileOptions(options, shell),
    now: shell.now,
    onStep: (step) => voice.progress(`${step.what.padEnd(44)} ${step.ms.toFixed(0).padStart(6)} ms`),
  });
  finishBuild(report, options.json === true, session);
}

/** A command whose options are the script's own dimensions, with units, meanings and ranges for its help. */
function optionsOf(make: Command, file: string, script: AnyScript): Command {
  const command = make.createCommand(`make ${file}`).description(script.about);
  for (const [name, dimension] of Object.entries(script.dimensions)) {
    command.option(`--${optionName(name)} <${wordFor(dimension)}>`, helpFor(dimension));
  }
  return addFileOptions(command);
}

const wordFor = ({ kind, choices }: Dimension<unknown>): string =>
  choices.length > 0
    ? choices.join('|')
    : ({ length: 'mm', angle: 'deg', count: 'n' }[kind as 'length'] ?? 'text');

function helpFor({ kind, value, about, least, most }: Dimension<unknown>): string {
  const unit = unitOf(kind);
  const shown = typeof value === 'boolean' ? (value ? 'yes' : 'no') : String(value);
  const range =
    kind === 'length' || kind === 'angle' || kind === 'count'
      ? `, ${least !== undefined && least > -Infinity ? tidy(least) : ''} to ${most === undefined ? 'any' : tidy(most)}`
      : '';
  return `${about} (${shown}${unit}${range})`;
}
