/** Words in colour where a person is looking, plain where the output goes to a file or a pipe. */
export interface Paint {
  readonly bad: (text: string) => string;
  readonly warn: (text: string) => string;
  readonly good: (text: string) => string;
  readonly dim: (text: string) => string;
  readonly strong: (text: string) => string;
}

const wrap =
  (code: string) =>
  (text: string): string =>
    `\u001b[${code}m${text}\u001b[0m`;
const plain = (text: string): string => text;

/** Colour only on a terminal, and not where NO_COLOR (an informal standard) asks for none. */
export function paintFor(stream: { readonly isTTY: boolean }, env: NodeJS.ProcessEnv): Paint {
  if (!stream.isTTY || env['NO_COLOR'] !== undefined || env['TERM'] === 'dumb') {
    return { bad: plain, warn: plain, good: plain, dim: plain, strong: plain };
  }
  return { bad: wrap('31'), warn: wrap('33'), good: wrap('32'), dim: wrap('2'), strong: wrap('1') };
}
