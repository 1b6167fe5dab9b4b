import { armReach, type ArmReach } from './arm-reach.js';
import { cellBody, type CellBody } from './cell-clash.js';
import { cellOf, quartersOf, type Cell } from './cells.js';
import { cellIsBlocked, cellMayBeFewest, firstCells } from './live-cells.js';
import type { RouteProblem } from './problem.js';

/** A cell that lives, and what has been worked out about it so far. */
export interface LiveCell {
  readonly clrs: readonly [number, number];
  readonly cell: Cell;
  body: CellBody | undefined;
  quarters: readonly LiveCell[] | undefined;
}

/** Half width (mm) of the cells at the root. */
const ROOT = 64;

/** The two-bend routes of the fewest welds of one port and slot, as a tree of live cells that grows when asked. */
class CellTree {
  readonly #problem: RouteProblem;
  readonly #start: number;
  readonly #slot: number;
  readonly #reach: ArmReach;
  #roots: readonly LiveCell[] | undefined;

  constructor(problem: RouteProblem, start: number, slot: number) {
    this.#problem = problem;
    this.#start = start;
    this.#slot = slot;
    this.#reach = armReach(problem, start, slot);
  }

  /** The coarsest cells that live. */
  roots(): readonly LiveCell[] {
    if (this.#roots) return this.#roots;
    const { stock } = this.#problem;
    const roots: LiveCell[] = [];
    for (const one of stock)
      for (const two of stock)
        for (const at of firstCells(this.#problem, this.#start, ROOT)) {
          const found = this.#live([one.clr, two.clr], at);
          if (found) roots.push(found);
        }
    this.#roots = roots;
    return roots;
  }

  /** The quarters of a cell that live. */
  quarters(of: LiveCell): readonly LiveCell[] {
    of.quarters ??= quartersOf(of.cell)
      .map((at) => this.#live(of.clrs, at))
      .filter((one) => one !== undefined);
    return of.quarters;
  }

  /** What is certain about every tube of a cell. */
  body(of: LiveCell): CellBody {
    of.body ??= cellBody(this.#problem, this.#start, this.#slot, of.clrs, of.cell);
    return of.body;
  }

  #live(clrs: readonly [number, number], at: Pick<Cell, 'a' | 'b' | 'half'>): LiveCell | undefined {
    const [problem, start, slot] = [this.#problem, this.#start, this.#slot];
    const cell = cellOf(problem, start, slot, clrs, this.#reach, at);
    if (cell === undefined || !cellMayBeFewest(problem, clrs, cell)) return undefined;
    if (cellIsBlocked(problem, start, slot, clrs, cell)) return undefined;
    return { clrs, cell, body: undefined, quarters: undefined };
  }
}

/** Trees grown so far: they are asked for pair by pair, and are dropped with their problem. */
const trees = new WeakMap<RouteProblem, Map<number, CellTree>>();

/** The tree of one port and slot. */
export function treeOf(problem: RouteProblem, start: number, slot: number): CellTree {
  const known = trees.get(problem) ?? new Map<number, CellTree>();
  trees.set(problem, known);
  const key = start * problem.slots.length + slot;
  const tree = known.get(key) ?? new CellTree(problem, start, slot);
  known.set(key, tree);
  return tree;
}
