import { tidy } from '../../base/numbers.js';
import type { Problem } from '../../base/problems.js';
import { tolerance } from '../../base/tolerance.js';
import type { PrimaryStanding } from './standing.js';

/** Where routes come from: found and frozen, or given by hand in the job. */
export interface RoutesFrom {
  /** Frozen routes are claimed to be clear, so that breaking the claim is an error; hand routes are the user's own word. */
  readonly severity: 'error' | 'warning';
  /** File and key of a primary's rows, by its place among the standings. */
  readonly placeOf: (id: string, index: number) => { readonly file?: string; readonly path: string };
  /** What a primary is called where its name alone would not do; limits of the job for routes do not bind it then. */
  readonly called?: (id: string) => string | undefined;
}

/** What is wrong with primaries as they stand: too near to something, or beyond the job's own limits. */
export function standingProblems(
  standings: readonly PrimaryStanding[],
  { severity, placeOf, called }: RoutesFrom,
): readonly Problem[] {
  const told = new Set<string>();
  return standings.flatMap((standing, i): Problem[] => {
    const place = placeOf(standing.id, i);
    const name = called?.(standing.id);
    const broken = name === undefined ? standing.broken : [];
    const problems: Problem[] = broken.map((what) => ({
      code: 'route/breaks-limit',
      severity,
      what: `${standing.id}: ${what}`,
      why: 'a limit of the job stands for what the bender, the saw or the joint needs',
      fix: `change the row, or the limit in the job if it asks too much${severity === 'error' ? '; `tackwright route` finds routes that keep it' : ''}`,
      place,
    }));
    const { to, spare } = standing.nearest;
    // Two primaries are each other's nearest: one message tells of both.
    const pair = [standing.id, to].sort().join(' ');
    if (spare >= -tolerance.file || told.has(pair)) return problems;
    told.add(pair);
    return [...problems, tooNear({ ...standing, id: name ?? standing.id }, severity, place)];
  });
}

function tooNear(
  { id, nearest: { to, station, spare, asked, path } }: PrimaryStanding,
  severity: Problem['severity'],
  place: Problem['place'],
): Problem {
  const where = station === undefined ? '' : ` ${tidy(station, 0)} mm from its start`;
  const short = Math.ceil(-spare * 10) / 10;
  const gap = asked === undefined ? undefined : asked + spare;
  const found =
    gap === undefined
      ? `${id}${where} is ${tidy(-spare, 2)} mm nearer to ${to} than is asked between tubes`
      : gap < 0
        ? `${id}${where} runs ${tidy(-gap, 2)} mm into ${to}`
        : `${id}${where} passes ${to} at ${tidy(gap, 2)} mm, where ${tidy(gap - spare, 2)} is asked`;
  const away = `move it ${tidy(short, 1)} mm away`;
  const mayAskLess = gap !== undefined && gap >= 0 && path?.startsWith('keep_outs') === true;
  const less = mayAskLess
    ? `${away}, or ask less of it: ${path}.clear: ${tidy(Math.floor(gap * 10) / 10, 1)}`
    : away;
  return {
    code: 'route/too-near',
    severity,
    what: found,
    why:
      gap !== undefined && gap < 0
        ? 'a tube cannot stand where something else does'
        : 'engines roll and tubes grow hot: what nearly touches will touch, chafe or burn',
    fix: severity === 'error' ? `run \`tackwright route\` again, or ${less}` : less,
    place,
  };
}
