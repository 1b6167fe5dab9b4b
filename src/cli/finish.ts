import path from 'node:path';
import { exitCodeOf } from '../base/problems.js';
import type { BuildReport } from '../build/report.js';
import type { Session } from './session.js';
import { countText, problemText } from './say-problems.js';
import { cutListLines } from './say-cut-list.js';
import { voiceOf } from './shell.js';

/** Tells what came of a build: problems first, then what lies where; or all of it as JSON. */
export function finishBuild(report: BuildReport, asJson: boolean, { shell, leave }: Session): void {
  const { say, complain, paint, paintError } = voiceOf(shell);
  const { ok, problems, measures, files, reused } = report;
  // What was asked for beside the build, such as a rack file, may have failed though the build is good.
  const code = exitCodeOf(problems) || (ok ? 0 : 1);
  leave(code);
  const folder = path.relative(shell.folder, report.folder) || '.';
  if (asJson) {
    say(JSON.stringify({ ...summaryOf(report), folder, exit: code }, null, 2));
    return;
  }
  if (problems.length > 0) complain(problemText(problems, paintError));
  if (!ok) {
    complain(`${countText(problems)}; nothing was written.`);
    return;
  }
  if (shell.out.isTTY) {
    for (const part of report.parts) {
      const names = files.filter((file) => file.part === part.name).map((file) => file.path);
      say(`  ${paint.strong(part.name.padEnd(18))} ${names.join('  ')}`);
    }
  }
  const { cutList, cutFigures, job } = report;
  if (cutList && cutFigures && job && shell.out.isTTY)
    for (const line of cutListLines(cutList, cutFigures, job.shop, paint)) say(line);
  const passed = measures.filter((measure) => measure.ok).length;
  const whole = report.parts.length === 0 || reused.length === report.parts.length;
  const left =
    reused.length === 0
      ? ''
      : whole
        ? ', nothing has changed'
        : `, ${reused.length} of ${report.parts.length} parts unchanged`;
  const stale = files.filter((file) => file.stale).length;
  const old = stale === 0 ? '' : ` (${stale} of the job as it was)`;
  say(
    `${paint.good('good')}  ${folder}: ${files.length} files${old}, ${passed} of ${measures.length} measures pass${left}`,
  );
}

/** The machine-readable summary: what `--json` prints. */
function summaryOf(report: BuildReport): object {
  const { ok, name, parts, files, reused, measures, problems, job } = report;
  return {
    ok,
    name,
    parts: parts.map((part) => ({
      name: part.name,
      family: part.family,
      files: files.filter((file) => file.part === part.name).map((file) => file.path),
      unchanged: reused.includes(part.name),
      ...(part.kind === 'plate'
        ? {
            thickness: part.thickness,
            holes: part.holes.map(({ name, at, diameter, made }) => ({ name, at, diameter, made })),
            leastWeb: part.leastWeb,
          }
        : {}),
    })),
    files: files.map(({ path, bytes, sha256, part, stale }) => ({
      path,
      bytes,
      sha256,
      part,
      stale: stale ?? false,
    })),
    ...(report.cutList === undefined
      ? {}
      : { cutList: report.cutList.totals, cutFigures: report.cutFigures }),
    measures: { passed: measures.filter((each) => each.ok).length, all: measures.length },
    problems,
    defaults: job?.defaults ?? [],
    guesses: job?.guesses ?? [],
  };
}
