// Whole processes, as a user waits for them: the built program on the demo job, medians of several runs.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import path from 'node:path';

const root = path.resolve(import.meta.dirname, '..');
const program = path.join(root, 'dist/tackwright.js');
const job = path.join(root, 'fixtures/hillclimb-four/job.yaml');
const folder = mkdtempSync(path.join(tmpdir(), 'tackwright-bench-'));
const clock = '/usr/bin/time';
const weighs = existsSync(clock);

interface Figures {
  readonly seconds: number;
  readonly megabytes: number;
}

function once(args: readonly string[]): Figures {
  const start = performance.now();
  const [command, ...rest] = weighs
    ? [clock, '-f', '%M', process.execPath, ...args]
    : [process.execPath, ...args];
  const ran = spawnSync(command as string, rest, { cwd: folder, encoding: 'utf8' });
  const seconds = (performance.now() - start) / 1000;
  if (ran.status !== 0) throw new Error(`${args.join(' ')}: ${ran.stderr}`);
  return { seconds, megabytes: weighs ? Number(ran.stderr.trim().split('\n').at(-1)) / 1024 : NaN };
}

function median(list: readonly number[]): number {
  const sorted = [...list].sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? NaN;
}

function row(what: string, aim: number, args: readonly string[], cold: boolean, runs = 7): void {
  const figures: Figures[] = [];
  if (!cold) once(args);
  for (let i = 0; i < runs; i++) {
    if (cold) rmSync(path.join(folder, 'exports'), { recursive: true, force: true });
    figures.push(once(args));
  }
  const seconds = figures.map((each) => each.seconds);
  const least = Math.min(...seconds).toFixed(3);
  const most = Math.max(...seconds).toFixed(3);
  const mid = median(seconds);
  const memory = median(figures.map((each) => each.megabytes)).toFixed(0);
  const ratio = Number.isNaN(aim) ? '' : `  ${(mid / aim).toFixed(2)} x aim ${aim}`;
  console.log(
    `${what.padEnd(38)} ${mid.toFixed(3)} s  (${least} to ${most})  ${memory.padStart(4)} MB${ratio}`,
  );
}

const build = (...more: string[]): string[] => [program, 'build', job, ...more];

console.log(`node ${process.version}, ${cpus().length} x ${cpus()[0]?.model ?? 'unknown processor'}`);
row('node alone', NaN, ['-e', '0'], true);
row('flange DXF, cold', 0.16, build('--only', 'flange', '--formats', 'dxf'), true);
row('flange DXF + STEP, cold', 0.42, build('--only', 'flange', '--formats', 'dxf,step'), true);
row('flange, merge plate, strongback, cold', 1, build('--only', 'flange,merge-plate,strongback'), true, 5);
row('whole demo, cold', 4, build(), true, 3);
row('whole demo, nothing changed', 0.1, build(), false);
row('check', NaN, [program, 'check', job], true);
rmSync(folder, { recursive: true, force: true });
