/** Usual cold clearances (mm) to a neighbour: bare, and behind a heat shield. */
export interface Neighbour {
  readonly bare: number;
  readonly shielded: number;
}

/**
 * Usual clearances by kind of neighbour (`kind` of a keep-out). Common practice, no source: local rules and
 * the maker of the vehicle decide.
 */
export const neighbours = {
  'brake line': { bare: 75, shielded: 30 },
  'clutch line': { bare: 75, shielded: 30 },
  'fuel line': { bare: 100, shielded: 50 },
  wiring: { bare: 75, shielded: 30 },
  steering: { bare: 15, shielded: 10 },
  'steering joint': { bare: 50, shielded: 25 },
  starter: { bare: 30, shielded: 15 },
  panel: { bare: 40, shielded: 20 },
  composite: { bare: 75, shielded: 40 },
  'rubber mount': { bare: 60, shielded: 25 },
  'coolant hose': { bare: 50, shielded: 25 },
  head: { bare: 8, shielded: 8 },
  block: { bare: 8, shielded: 8 },
  frame: { bare: 15, shielded: 15 },
} as const satisfies Record<string, Neighbour>;

export type NeighbourKind = keyof typeof neighbours;

export const neighbourKinds = Object.keys(neighbours) as NeighbourKind[];

/** Added (mm) for a neighbour that moves or is fixed to the body: the engine rolls on its mounts. Common practice. */
export const ROLL = 10;
