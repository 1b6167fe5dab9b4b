import type { Part } from '../design/parts.js';
import type { Dimension } from './dimension.js';

/** The values that `draw` is given, one for each dimension. */
export type Values<D extends Readonly<Record<string, Dimension<unknown>>>> = {
  readonly [K in keyof D]: D[K] extends Dimension<infer T> ? T : never;
};

/** A parametric drawing: named dimensions, and how a part is drawn from them. */
export interface Script<D extends Readonly<Record<string, Dimension<unknown>>>> {
  /** One line: what it draws. */
  readonly about: string;
  readonly dimensions: D;
  /** The part or parts; lengths in mm, angles in degrees. */
  readonly draw: (values: Values<D>) => Part | readonly Part[];
}

/** A script of any dimensions, as `make` runs it. */
export type AnyScript = Script<Readonly<Record<string, Dimension<unknown>>>>;

const isScript = Symbol.for('tackwright script');

/** Marks a drawing as one that `make` can run: `export default script({ about, dimensions, draw })`. */
export function script<D extends Readonly<Record<string, Dimension<unknown>>>>(
  drawing: Script<D>,
): Script<D> {
  return Object.assign(drawing, { [isScript]: true });
}

/** Whether a module's default export was made by `script`. */
export const madeByScript = (value: unknown): value is AnyScript =>
  typeof value === 'object' && value !== null && isScript in value;
