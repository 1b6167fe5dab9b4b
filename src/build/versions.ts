import { createRequire } from 'node:module';
import { version } from '../base/version.js';

let known: Readonly<Record<string, string>> | undefined;

/** The program and the library that shapes its solids. */
export function versions(): Readonly<Record<string, string>> {
  if (known === undefined) {
    const here = createRequire(import.meta.url);
    const manifest = here('replicad-opencascadejs/package.json') as { version: string };
    known = { tackwright: version, 'replicad-opencascadejs': manifest.version };
  }
  return known;
}
