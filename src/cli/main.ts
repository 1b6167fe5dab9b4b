import { run } from './run.js';
import type { Screen } from './shell.js';

// A stream that is no terminal has no isTTY at all.
const screen = (stream: NodeJS.WriteStream): Screen => ({
  isTTY: stream.isTTY === true,
  columns: stream.columns,
  write: (text) => stream.write(text),
});

// The exit code is set, not forced, so that everything still on its way to a pipe arrives.
process.exitCode = await run(process.argv.slice(2), {
  out: screen(process.stdout),
  error: screen(process.stderr),
  env: process.env,
  folder: process.cwd(),
  now: () => performance.now(),
  // The first Ctrl-C ends the search with the best so far, the second ends the program.
  onInterrupt: (stop) => process.once('SIGINT', stop),
});
