import type { Place, Problem } from '../base/problems.js';
import type { Paint } from './paint.js';

/** `job.yaml:14:10`, as editors and terminals link it; the key's path where there is no line. */
export function placeText(place: Place | undefined): string {
  if (place === undefined) return '';
  const { file, path, line, column } = place;
  if (line === undefined) return [file, path].filter(Boolean).join(' ');
  return `${file ?? 'job'}:${line}:${column ?? 1}`;
}

/** One problem as four short lines: where, what was found, why it matters, what to change. */
export function problemLines(problem: Problem, paint: Paint): string[] {
  const colour = { error: paint.bad, warning: paint.warn, note: paint.dim }[problem.severity];
  const where = placeText(problem.place);
  const key = problem.place?.path !== undefined && problem.place.line !== undefined ? problem.place.path : '';
  const head = [colour(problem.severity), paint.strong(where), key, paint.dim(`[${problem.code}]`)];
  return [
    head.filter(Boolean).join('  '),
    `  found  ${problem.what}`,
    `  why    ${problem.why}`,
    `  fix    ${problem.fix}`,
  ];
}

const rank = { error: 0, warning: 1, note: 2 } as const;

/** All problems, errors first, each followed by an empty line. */
export function problemText(problems: readonly Problem[], paint: Paint): string {
  const sorted = [...problems].sort((a, b) => rank[a.severity] - rank[b.severity]);
  return sorted.map((p) => [...problemLines(p, paint), ''].join('\n')).join('\n');
}

/** `2 errors, 1 warning`; empty where there is nothing to tell. */
export function countText(problems: readonly Problem[]): string {
  const count = (severity: Problem['severity'], word: string): string[] => {
    const n = problems.filter((p) => p.severity === severity).length;
    return n === 0 ? [] : [`${n} ${word}${n === 1 ? '' : 's'}`];
  };
  return [...count('error', 'error'), ...count('warning', 'warning'), ...count('note', 'note')].join(', ');
}
