import { type Paint, paintFor } from './paint.js';

/** What a command needs of a stream it prints to. */
export interface Screen {
  readonly isTTY: boolean;
  readonly columns: number | undefined;
  write(text: string): unknown;
}

/** Everything outside the program that a command may touch: handed in, so that tests can stand in for it. */
export interface Shell {
  readonly out: Screen;
  readonly error: Screen;
  readonly env: NodeJS.ProcessEnv;
  /** Where the user stands; relative paths count from here. */
  readonly folder: string;
  /** Milliseconds from any fixed moment, for step times. */
  readonly now: () => number;
  /** Calls back at Ctrl-C, instead of ending the program; absent where nobody can press it. */
  readonly onInterrupt?: (stop: () => void) => void;
}

/** How a command talks: results to standard output, progress and problems to standard error. */
export interface Voice {
  readonly say: (line: string) => void;
  readonly progress: (text: string) => void;
  readonly complain: (text: string) => void;
  readonly paint: Paint;
  readonly paintError: Paint;
}

export function voiceOf(shell: Shell): Voice {
  return {
    say: (line) => shell.out.write(line + '\n'),
    // Piped or redirected, nobody watches: only results and problems are printed.
    progress: (text) => {
      if (shell.error.isTTY) shell.error.write(text + '\n');
    },
    complain: (text) => shell.error.write(text + '\n'),
    paint: paintFor(shell.out, shell.env),
    paintError: paintFor(shell.error, shell.env),
  };
}
