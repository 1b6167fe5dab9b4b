import { exitCodeOf, Refusal } from '../base/problems.js';
import { problemText } from './say-problems.js';
import { type Shell, voiceOf } from './shell.js';

/**
 * Runs one command line and gives its exit code: 0 good, 1 a fault of ours, 2 the job (or the command line)
 * is wrong, 3 the job is right but cannot be made. Never throws, never shows a stack trace for a user's mistake.
 */
export async function run(args: readonly string[], shell: Shell): Promise<number> {
  const voice = voiceOf(shell);
  try {
    const { runProgram } = await import('./program.js');
    return await runProgram(args, shell);
  } catch (reason) {
    if (reason instanceof Refusal) {
      voice.complain(problemText(reason.problems, voice.paintError));
      return exitCodeOf(reason.problems) || 1;
    }
    const message = reason instanceof Error ? reason.message : String(reason);
    voice.complain(`This is a fault of tackwright itself, not of your job: ${message}`);
    voice.complain('Nothing was written. Please report it, with the job file and the command you gave.');
    const trace = reason instanceof Error ? reason.stack : undefined;
    if (shell.env['TACKWRIGHT_TRACE'] !== undefined && trace !== undefined) voice.complain(trace);
    else voice.complain('(TACKWRIGHT_TRACE=1 before the command prints where in the program it happened.)');
    return 1;
  }
}
