import type { Shell } from './shell.js';

/** What every command is given beside its own words: the shell, and where to leave its exit code. */
export interface Session {
  readonly shell: Shell;
  readonly leave: (code: number) => void;
}
