/** A stream of numbers that looks random and is the same for the same seed on every machine. */
export interface Random {
  /** In [0, 1). */
  next(): number;
  /** In [low, high). */
  between(low: number, high: number): number;
  /** A whole number in [low, high]. */
  whole(low: number, high: number): number;
  /** One of the list. */
  pick<T>(list: readonly T[]): T;
  /** True with probability p. */
  chance(p: number): boolean;
}

/** Mixes whole numbers into one 32-bit seed, so that streams (job, part, try) do not run alike. */
export function mixSeed(...parts: readonly number[]): number {
  let h = 0x811c9dc5;
  for (const part of parts) {
    h = Math.imul(h ^ (part | 0), 0x01000193);
    h ^= h >>> 15;
    h = Math.imul(h, 0x85ebca6b);
    h ^= h >>> 13;
  }
  return h >>> 0;
}

/**
 * A seeded stream. Mulberry32, a public-domain 32-bit generator: good enough to spread trial jobs,
 * not for secrets.
 */
export function randomFrom(seed: number): Random {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const between = (low: number, high: number): number => low + (high - low) * next();
  const whole = (low: number, high: number): number => low + Math.floor((high - low + 1) * next());
  return {
    next,
    between,
    whole,
    pick: (list) => {
      const chosen = list[whole(0, list.length - 1)];
      if (chosen === undefined) throw new Error('pick from an empty list');
      return chosen;
    },
    chance: (p) => next() < p,
  };
}
