import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type { LinearProgram, ProgramSolution, Solve, SolveLimits } from '../design/pieces/linear-program.js';

/** What is used of the solver's answer. */
interface Found {
  readonly Status: string;
  readonly Columns: Readonly<Record<string, { readonly Primal?: number } | undefined>>;
  readonly Rows: readonly { readonly Dual?: number }[];
}

interface Highs {
  solve(program: string, options: object): Found;
}

let opening: Promise<Solve> | undefined;

/** Opens the solver (HiGHS, WebAssembly), once per process; nothing of it is loaded before the first call. */
export function openSolver(): Promise<Solve> {
  opening ??= open();
  return opening;
}

async function open(): Promise<Solve> {
  const here = createRequire(import.meta.url);
  const [{ default: load }, wasmBinary] = await Promise.all([
    import('highs'),
    readFile(here.resolve('highs/runtime')),
  ]);
  const highs = (await load({ wasmBinary })) as unknown as Highs;
  return (program, limits) => solved(highs, program, limits);
}

function solved(highs: Highs, program: LinearProgram, limits: SolveLimits): ProgramSolution {
  const { relaxed = false, nodes = 1_000_000, seconds = 60 } = limits;
  const found = highs.solve(programText(program, relaxed), {
    output_flag: false,
    log_to_console: false,
    time_limit: seconds,
    ...(relaxed
      ? {}
      : {
          mip_rel_gap: 0,
          mip_abs_gap: 1e-6,
          mip_max_nodes: nodes,
          // Both measured: restarts and many heuristics cost more than they bring on these programs.
          mip_allow_restart: false,
          mip_heuristic_effort: 0.2,
        }),
  });
  return told(found, program, relaxed);
}

function told(found: Found, program: LinearProgram, relaxed: boolean): ProgramSolution {
  const nothing: ProgramSolution = { status: 'none', cost: Infinity, values: [], prices: [] };
  if (found.Status === 'Infeasible' || found.Status === 'Primal infeasible or unbounded') return nothing;
  const values = program.unknowns.map((_, i) => {
    return found.Columns[`x${i}`]?.Primal ?? 0;
  });
  const status = found.Status === 'Optimal' ? 'best' : 'stopped';
  // A run stopped before it found anything still names the columns, with values that keep no row.
  if (status === 'stopped' && !keepsRows(program, values)) return { ...nothing, status };
  const prices = relaxed ? program.rows.map((_, i) => found.Rows[i]?.Dual ?? 0) : [];
  const cost = program.unknowns.reduce((sum, unknown, i) => sum + unknown.cost * (values[i] ?? 0), 0);
  return { status, cost, values, prices };
}

/** The solver's own tolerance for rows, with room for sums. */
const ROW_SLACK = 1e-5;

const keepsRows = ({ rows, unknowns }: LinearProgram, values: readonly number[]): boolean =>
  unknowns.every(
    ({ whole }, i) => !whole || Math.abs((values[i] ?? 0) - Math.round(values[i] ?? 0)) < ROW_SLACK,
  ) &&
  rows.every(({ terms, sense, right }) => {
    const sum = terms.reduce((total, [i, coefficient]) => total + coefficient * (values[i] ?? 0), 0);
    return sense === '=' ? Math.abs(sum - right) <= ROW_SLACK : sum <= right + ROW_SLACK;
  });

/** A program in the text form that the solver reads (the CPLEX LP format). */
function programText({ unknowns, rows }: LinearProgram, relaxed: boolean): string {
  const term = (coefficient: number, i: number): string =>
    `${coefficient < 0 ? '-' : '+'} ${Math.abs(coefficient)} x${i}`;
  const cost = unknowns.map((unknown, i) => term(unknown.cost, i));
  const wholes = relaxed ? [] : unknowns.flatMap(({ whole }, i) => (whole ? [`x${i}`] : []));
  return [
    'Minimize',
    ` obj: ${lines(cost)}`,
    'Subject To',
    ...rows.map(({ terms, sense, right }, r) => {
      return ` r${r}: ${lines(terms.map(([i, coefficient]) => term(coefficient, i)))} ${sense} ${right}`;
    }),
    'Bounds',
    ...unknowns.flatMap(({ most }, i) => (most < Infinity ? [` 0 <= x${i} <= ${most}`] : [])),
    ...(wholes.length > 0 ? ['General', lines(wholes)] : []),
    'End',
    '',
  ].join('\n');
}

/** Long rows over several lines: the format allows 510 signs a line. */
function lines(words: readonly string[]): string {
  const rows: string[] = [];
  for (let i = 0; i < words.length; i += 16) rows.push(words.slice(i, i + 16).join(' '));
  return rows.join('\n  ');
}
