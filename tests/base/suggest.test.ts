import { describe, expect, it } from 'vitest';
import { didYouMean, slipsBetween, suggest } from '../../src/base/suggest.js';

describe('slips of the keyboard between two words', () => {
  // Levenshtein's own classic pair, and the published example that sets the two distances with swaps apart.
  it.each([
    ['kitten', 'sitting', 3],
    ['saturday', 'sunday', 3],
    ['ca', 'abc', 3],
    ['pitch', 'pitch', 0],
    ['pitch', 'ptich', 1],
    ['', 'pitch', 5],
    ['pich', 'pitch', 1],
  ] as const)('%s to %s: %i (optimal string alignment)', (a, b, slips) => {
    expect(slipsBetween(a, b)).toBe(slips);
    expect(slipsBetween(b, a)).toBe(slips);
  });
});

describe('the word that was meant', () => {
  const known = ['thickness', 'material', 'edge', 'boss', 'web', 'fillet', 'least_web', 'cut_by'];
  it.each([
    ['thicknes', 'thickness'],
    ['thcikness', 'thickness'],
    ['Thickness', 'thickness'],
    ['least-web', 'least_web'],
    ['Cut By', 'cut_by'],
    ['thick', 'thickness'],
    ['bos', 'boss'],
    ['fillett', 'fillet'],
  ] as const)('%s: %s', (word, meant) => expect(suggest(word, known)).toBe(meant));

  it('nothing where nothing is near', () => {
    expect(suggest('camshaft', known)).toBeUndefined();
    expect(suggest('x', known)).toBeUndefined();
    expect(suggest('', known)).toBeUndefined();
    expect(didYouMean('camshaft', known)).toBe('');
    expect(didYouMean('egde', known)).toBe(' Did you mean "edge"?');
  });

  it('takes the nearest, not the first', () => expect(suggest('boxx', ['boss', 'box'])).toBe('box'));

  it('a very long word costs no time', () => expect(suggest('x'.repeat(1e6), known)).toBeUndefined());
});
