/** One unknown of a linear program: at least 0, at most `most`. */
export interface Unknown {
  readonly cost: number;
  readonly most: number;
  /** Whether only whole numbers will do. */
  readonly whole: boolean;
}

/** One row: the sum of coefficient x unknown, by the unknowns' numbers, equal to or at most `right`. */
export interface ProgramRow {
  readonly terms: readonly (readonly [unknown: number, coefficient: number])[];
  readonly sense: '=' | '<=';
  readonly right: number;
}

/** Find the unknowns that keep every row at the least cost. */
export interface LinearProgram {
  readonly unknowns: readonly Unknown[];
  readonly rows: readonly ProgramRow[];
}

export interface SolveLimits {
  /** Let every unknown be a fraction, and give the rows' prices. */
  readonly relaxed?: boolean;
  /** How many branches may be looked at. A count, so that the same job gives the same plan on any machine. */
  readonly nodes?: number;
  /** A safety net only: ends early with the best found so far. */
  readonly seconds?: number;
}

export interface ProgramSolution {
  /** `best`: proved. `stopped`: a limit was met; there may be values. `none`: no values keep the rows. */
  readonly status: 'best' | 'stopped' | 'none';
  readonly cost: number;
  /** By unknown; empty where none were found. */
  readonly values: readonly number[];
  /** By row, of a relaxed program: what the cost grows by for each 1 on its right side. */
  readonly prices: readonly number[];
}

/** A solver of linear programs with whole numbers: handed in, as it is loaded at the edge of the program. */
export type Solve = (program: LinearProgram, limits: SolveLimits) => ProgramSolution;
