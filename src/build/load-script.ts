import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { BuildFailure, Plugin } from 'esbuild';
import { Refusal, type Problem } from '../base/problems.js';
import { madeByScript, type AnyScript } from './script.js';

/**
 * Loads a parametric script, TypeScript or JavaScript, from anywhere on disk. `import ... from 'tackwright'`
 * means this very program, so a script needs no package of its own beside it.
 * @throws Refusal build/no-file, build/bad-script with the script's own line
 */
export async function loadScript(file: string): Promise<AnyScript> {
  if (!existsSync(file)) throw new Refusal([noFile(file)]);
  const { build } = await import('esbuild');
  let code: string;
  try {
    const made = await build({
      entryPoints: [file],
      absWorkingDir: path.dirname(file),
      bundle: true,
      write: false,
      format: 'esm',
      platform: 'node',
      target: 'node20',
      logLevel: 'silent',
      plugins: [ourselves()],
    });
    code = made.outputFiles[0]?.text ?? '';
  } catch (reason) {
    throw new Refusal(syntaxProblems(file, reason as BuildFailure));
  }
  let loaded: { default?: unknown };
  try {
    const url = `data:text/javascript;base64,${Buffer.from(code).toString('base64')}`;
    loaded = (await import(url)) as { default?: unknown };
  } catch (reason) {
    throw new Refusal([failed(file, reason)]);
  }
  if (!madeByScript(loaded.default))
    throw new Refusal([
      {
        code: 'build/bad-script',
        severity: 'error',
        what: `${path.basename(file)} does not export a script`,
        why: 'there is nothing to draw',
        fix: 'end it with `export default script({ about, dimensions, draw })`',
        place: { file },
      },
    ]);
  return loaded.default;
}

/** What went wrong inside the script's own code, in its own words. */
export function failed(file: string, reason: unknown): Problem {
  return {
    code: 'build/bad-script',
    severity: 'error',
    what: `the script stopped: ${reason instanceof Error ? reason.message : String(reason)}`,
    why: 'no part was drawn',
    fix: 'mend the script; its own checks or dimensions are at fault, not the program',
    place: { file },
  };
}

/** Sends `tackwright` to the built library of the program that runs. */
function ourselves(): Plugin {
  return {
    name: 'tackwright',
    setup(build) {
      build.onResolve({ filter: /^tackwright$/ }, () => ({ path: libraryUrl(), external: true }));
    },
  };
}

/** The built library, found from wherever this code runs: the bundle, or the sources under test. */
function libraryUrl(): string {
  let folder = path.dirname(fileURLToPath(import.meta.url));
  for (;;) {
    const manifest = path.join(folder, 'package.json');
    if (existsSync(manifest) && /"name":\s*"tackwright"/.test(readFileSync(manifest, 'utf8')))
      return pathToFileURL(path.join(folder, 'dist', 'index.js')).href;
    const parent = path.dirname(folder);
    if (parent === folder) throw new Error('the built library was not found');
    folder = parent;
  }
}

const noFile = (file: string): Problem => ({
  code: 'build/no-file',
  severity: 'error',
  what: `there is no file ${file}`,
  why: 'there is nothing to draw',
  fix: 'give the path of a script, such as scripts/port-flange.ts',
  place: { file },
});

function syntaxProblems(file: string, reason: BuildFailure): Problem[] {
  const errors = reason.errors ?? [];
  if (errors.length === 0) return [failed(file, reason)];
  return errors.map((error) => ({
    code: 'build/bad-script',
    severity: 'error',
    what: error.text,
    why: 'the script cannot be read, so no part was drawn',
    fix: 'mend the script at that place',
    place: {
      file: error.location ? path.resolve(path.dirname(file), error.location.file) : file,
      ...(error.location ? { line: error.location.line, column: error.location.column + 1 } : {}),
    },
  }));
}
