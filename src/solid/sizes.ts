import { tidy } from '../base/numbers.js';
import { type Problem, Refusal } from '../base/problems.js';

/** A figure of a part, with the limits between which a solid can be made of it (mm). */
export interface Size {
  readonly what: string;
  readonly value: number;
  /** It must be larger than this: 0 where nothing is said. */
  readonly above?: number;
  /** It must be smaller than this. */
  readonly below?: number;
}

/**
 * Stops figures that no solid has before they reach the kernel, which may run for ever on them.
 * @throws Refusal `solid/size`, with every figure that is wrong.
 */
export function requireSizes(part: string, sizes: readonly Size[]): void {
  const wrong = sizes.flatMap(({ what, value, above = 0, below = Infinity }): Problem[] => {
    if (Number.isFinite(value) && value > above && value < below) return [];
    const limits =
      below === Infinity ? `over ${tidy(above)}` : `over ${tidy(above)} and under ${tidy(below)}`;
    return [
      {
        code: 'solid/size',
        severity: 'error',
        what: `${part}: ${what} is ${value} mm; it must be ${limits} mm`,
        why: 'no solid has such a figure',
        fix: `give ${what} ${limits} mm`,
      },
    ];
  });
  if (wrong.length > 0) throw new Refusal(wrong);
}
