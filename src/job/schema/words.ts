import { suggest } from '../../base/suggest.js';
import { leaf, orGuessed, outside, wrongType, type Leaf, type LeafFault, type Says } from './leaf-base.js';
import { shown } from './notes.js';

/** A whole number. */
export function count(says: Says): Leaf<number> {
  const { low = 0, high = 1000 } = says;
  const read = (given: unknown): { value: number } | LeafFault => {
    const value = typeof given === 'string' && /^\s*\d+\s*$/.test(given) ? Number(given) : given;
    if (typeof value !== 'number')
      return wrongType(given, 'a whole number', says.example ?? String(Math.max(low, 1)));
    if (!Number.isInteger(value) || value < low || value > high) {
      const why = says.why ?? `it is ${says.says}`;
      return {
        ...outside(
          `is ${String(value)}; whole numbers from ${low} to ${high} are possible`,
          why,
          `write a whole number from ${low} to ${high}`,
        ),
        ...(Number.isFinite(value) ? {} : { code: 'job/not-finite' as const }),
      };
    }
    return { value };
  };
  return leaf(read, says, orGuessed({ type: 'integer', minimum: low, maximum: high }));
}

/** One of a few words. */
export function choice<const T extends string>(words: readonly T[], says: Says): Leaf<T> {
  const read = (given: unknown): { value: T } | LeafFault => {
    if (typeof given !== 'string') return wrongType(given, 'a word', words[0] ?? '');
    const value = words.find((word) => word === given.trim());
    if (value !== undefined) return { value };
    const meant = suggest(given, words);
    return {
      code: 'job/unknown-word',
      what: `is ${shown(given)}, which is none of its ${words.length} choices${meant === undefined ? '' : `; did you mean "${meant}"?`}`,
      why: `it is ${says.says}`,
      fix: `write one of: ${words.join(', ')}`,
    };
  };
  return leaf(read, says, orGuessed({ enum: [...words] }));
}

/** Yes or no. */
export function flag(says: Says): Leaf<boolean> {
  const words: Record<string, boolean> = { yes: true, on: true, no: false, off: false };
  const read = (given: unknown): { value: boolean } | LeafFault => {
    const value = typeof given === 'string' && Object.hasOwn(words, given) ? words[given] : given;
    return typeof value === 'boolean' ? { value } : wrongType(given, 'yes or no', 'yes');
  };
  return leaf(read, says, orGuessed({ enum: [true, false, 'yes', 'no', 'on', 'off'] }));
}

/** A name or other text. Numbers are taken as they are written: material 304. */
export function word(says: Says & { readonly most?: number }): Leaf<string> {
  const most = says.most ?? 100;
  const read = (given: unknown): { value: string } | LeafFault => {
    const value = typeof given === 'number' && Number.isFinite(given) ? String(given) : given;
    if (typeof value !== 'string') return wrongType(given, 'a text', says.example ?? '"304"');
    // Control characters would break names, drawings and file headers.
    // eslint-disable-next-line no-control-regex
    if (value.trim() === '' || value.length > most || /[\u0000-\u001f\u007f]/.test(value)) {
      return outside(
        `is ${value.trim() === '' ? 'empty' : `a text of ${value.length} characters, or holds signs that no keyboard has`}`,
        `it is ${says.says}`,
        `write 1 to ${most} ordinary characters on 1 line`,
      );
    }
    return { value: value.trim() };
  };
  return leaf(read, says, orGuessed({ type: ['string', 'number'] }));
}
