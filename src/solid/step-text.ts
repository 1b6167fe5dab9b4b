/*
 * STEP as text (ISO 10303-21): what is done to it without the kernel.
 */

/** The moment every file bears, so that the same part gives the same bytes. */
const MOMENT = '1970-01-01T00:00:00';

/**
 * A file as the kernel wrote it, made the same on every run and every machine: file name, time, author and
 * organisation fixed; letters beyond ASCII spelt as the standard's edition 2 has them, \X2\00E9\X0\.
 */
export function settledText(text: string, fileName: string): string {
  const header = `FILE_NAME(${quoted(fileName)},'${MOMENT}',(''),(''),'','','');`;
  const settled = text.replace(/FILE_NAME\((?:[^';]|'(?:[^']|'')*')*\);/, () => header);
  return settled.replace(/[^\0-\x7f]+/g, (run) => `\\X2\\${utf16(run)}\\X0\\`);
}

const quoted = (words: string): string => `'${words.replaceAll("'", "''")}'`;

const utf16 = (run: string): string =>
  Array.from({ length: run.length }, (_, i) =>
    run.charCodeAt(i).toString(16).toUpperCase().padStart(4, '0'),
  ).join('');

/** Which schema the file says it follows, or undefined. */
export const schemaIn = (text: string): string | undefined =>
  /FILE_SCHEMA\s*\(\s*\(\s*'([^']*)'/.exec(text)?.[1];

/** Names of the bodies under a product definition, in the order in which a reader comes upon them. */
export type NamesUnder = (productDefinition: number) => readonly string[];

const WANTED =
  /#(\d+)\s*=\s*(PRODUCT|PRODUCT_DEFINITION(?:_FORMATION(?:_WITH_SPECIFIED_SOURCE)?)?|NEXT_ASSEMBLY_USAGE_OCCURRENCE)\s*\(((?:[^';]|'(?:[^']|'')*')*)\)\s*;/g;

/**
 * Reads the product names out of a STEP text: a product definition leads through its formation to its
 * product; an assembly names each place in it.
 */
export function namesIn(text: string): NamesUnder {
  const products = new Map<number, string>();
  const leads = new Map<number, number>();
  const places: { readonly of: number; readonly part: number; readonly name: string }[] = [];
  for (const [, id = '', kind = '', fields = ''] of text.matchAll(WANTED)) {
    const words = [...fields.matchAll(/'((?:[^']|'')*)'/g)].map(([, word = '']) => plain(word));
    const links = [...fields.replace(/'(?:[^']|'')*'/g, '').matchAll(/#(\d+)/g)].map(([, link]) =>
      Number(link),
    );
    if (kind === 'PRODUCT') products.set(Number(id), words[1] || words[0] || '');
    else if (kind.startsWith('PRODUCT_DEFINITION')) leads.set(Number(id), links[0] ?? -1);
    else places.push({ of: links[0] ?? -1, part: links[1] ?? -1, name: words[1] ?? '' });
  }
  const nameOf = (definition: number): string =>
    products.get(leads.get(leads.get(definition) ?? -1) ?? -1) ?? '';
  const under = (definition: number, called: string, depth: number): readonly string[] => {
    const inside = depth > 0 ? places.filter(({ of }) => of === definition) : [];
    if (inside.length === 0) return [called];
    return inside.flatMap(({ part, name }) => under(part, name || nameOf(part), depth - 1));
  };
  return (definition) => under(definition, nameOf(definition), DEEPEST);
}

/** No header nests deeper; a file that names itself as its own part must not hang the reader. */
const DEEPEST = 20;

/** A STEP string as a person reads it. */
const plain = (word: string): string =>
  word
    .replaceAll("''", "'")
    .replace(/\\X2\\((?:[0-9A-F]{4})*)\\X0\\/g, (_, codes: string) =>
      String.fromCharCode(...(codes.match(/.{4}/g) ?? []).map((code) => Number.parseInt(code, 16))),
    );
