import { run } from './run.js';

// The exit code is set, not forced, so that everything still on its way to a pipe arrives.
process.exitCode = await run(process.argv.slice(2), {
  out: process.stdout,
  error: process.stderr,
  env: process.env,
  folder: process.cwd(),
  now: () => performance.now(),
});
