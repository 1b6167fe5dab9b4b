import { isAlias, isMap, isScalar, isSeq, type Document, type LineCounter, type Node, type Pair } from 'yaml';

/** A line and a column in a text, both counted from 1. */
export interface Spot {
  readonly line: number;
  readonly column: number;
}

/** The keys down to a value: `['studs', 'at', '3']`, or the same with dots. */
type KeyPath = string | readonly (string | number)[];

/**
 * Finds a key in the text it was read from. `key` asks for the key's own place, `value` (unless told
 * otherwise) for its value's, where that is a single word or number: what an editor should point at.
 * A key that is not in the text gives the place of the nearest one above it; the empty path the file's start.
 */
export type Locate = (path: KeyPath, which?: 'key' | 'value') => Spot | undefined;

const pathKeys = (path: KeyPath): readonly string[] =>
  typeof path === 'string' ? (path === '' ? [] : path.split('.')) : path.map(String);

/** A key as it is written; the key of a merge is no text but a sign of its own inside the reader. */
const keyText = (pair: Pair<unknown, unknown>): string =>
  isScalar(pair.key) ? (pair.key.source ?? String(pair.key.value)) : String(pair.key);

const start = (node: unknown): number | undefined => (node as Node | null)?.range?.[0];

/** The step from a node to one of its members: the offsets of the member's key and value. */
function step(
  document: Document,
  node: unknown,
  key: string,
): { key: number | undefined; value: unknown } | undefined {
  const here = isAlias(node) ? node.resolve(document) : node;
  if (isMap(here)) {
    const pair = here.items.find((item) => keyText(item) === key);
    if (pair) return { key: start(pair.key), value: pair.value };
    // A mapping merged in from elsewhere: its keys stand where they were written.
    const merged = here.items.find((item) => keyText(item) === '<<');
    return merged ? step(document, merged.value, key) : undefined;
  }
  if (isSeq(here) && /^\d+$/.test(key)) {
    const item = here.items[Number(key)];
    return item === undefined ? undefined : { key: start(item), value: item };
  }
  return undefined;
}

/** A finder for one document; nothing is walked until a place is asked for. */
export function sourceMap(document: Document, lines: LineCounter): Locate {
  const spot = (offset: number): Spot => {
    const { line, col } = lines.linePos(offset);
    return { line, column: col };
  };
  return (path, which = 'value') => {
    let node: unknown = document.contents;
    let offset = start(node) ?? 0;
    let whole = true;
    for (const key of pathKeys(path)) {
      const next = step(document, node, key);
      if (!next) {
        whole = false;
        break;
      }
      offset = next.key ?? start(next.value) ?? offset;
      node = next.value;
    }
    if (whole && which === 'value' && isScalar(node) && node.value !== null) offset = start(node) ?? offset;
    return spot(offset);
  };
}
