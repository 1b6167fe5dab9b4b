import { length3, type Vector } from '../../base/vectors.js';

/** The frame's own word for a direction, or what it mostly is. */
export function wayWords(way: Vector): string {
  const words = [
    ['right', 'left'],
    ['up', 'down'],
    ['out', 'in'],
  ] as const;
  return ([0, 1, 2] as const)
    .filter((k) => Math.abs(way[k]) > 0.1 * length3(way))
    .sort((a, b) => Math.abs(way[b]) - Math.abs(way[a]))
    .map((k) => words[k][way[k] > 0 ? 0 : 1])
    .join(' and ');
}
