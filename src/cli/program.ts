import { Command, CommanderError } from 'commander';
import { version } from '../base/version.js';
import type { Session } from './session.js';
import type { Shell } from './shell.js';
import { addBuild } from './commands/build.js';
import { addCheck } from './commands/check.js';
import { addExplain } from './commands/explain.js';
import { addMake } from './commands/make.js';
import { addNew } from './commands/new.js';
import { addRoute } from './commands/route.js';

/** Reads the command line, runs the command it names, and gives the exit code. */
export async function runProgram(args: readonly string[], shell: Shell): Promise<number> {
  let code = 0;
  const session: Session = { shell, leave: (left) => (code = left) };
  const program = new Command('tackwright')
    .description(
      'Port flanges, tube routes with their cut list, merge plates and tack-fixture cradles for a header, from a job file.',
    )
    .version(version)
    .enablePositionalOptions()
    .exitOverride()
    .configureOutput({
      writeOut: (text) => shell.out.write(text),
      writeErr: (text) => shell.error.write(text),
      getOutHelpWidth: () => Math.min(shell.out.columns ?? 100, 110),
    })
    .addHelpText(
      'after',
      '\nExit codes: 0 good, 1 a fault of the program, 2 the job is wrong, 3 it cannot be made.',
    );
  addNew(program, session);
  addCheck(program, session);
  addRoute(program, session);
  addBuild(program, session);
  addMake(program, session);
  addExplain(program, session);
  // Sub-commands take over the settings above only if they are told to.
  for (const command of program.commands) command.copyInheritedSettings(program);
  try {
    await program.parseAsync([...args], { from: 'user' });
  } catch (reason) {
    if (reason instanceof CommanderError) return reason.exitCode === 0 ? 0 : 2;
    throw reason;
  }
  return code;
}
