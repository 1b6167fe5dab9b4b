// Makes dist/: the program as one command and the library that scripts import, sharing their code.
// The kernel (LGPL-2.1) and the libraries of the registry stay outside, as files of their own.
import { spawnSync } from 'node:child_process';
import { chmodSync, copyFileSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('../..', import.meta.url));
const { version } = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8'));
const dist = path.join(root, 'dist');

/** Bundles the sources into dist/ (about a third of a second). */
export async function bundle() {
  mkdirSync(dist, { recursive: true });
  rmSync(path.join(dist, 'code'), { recursive: true, force: true });
  await build({
    absWorkingDir: root,
    entryPoints: {
      cli: 'src/cli/main.ts',
      index: 'src/index.ts',
      'route-worker': 'src/build/route-worker.ts',
      'route-mate': 'src/build/route-mate.ts',
    },
    outdir: 'dist',
    chunkNames: 'code/[name]-[hash]',
    bundle: true,
    splitting: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    minifySyntax: true,
    minifyWhitespace: true,
    legalComments: 'none',
    external: ['replicad', 'replicad-opencascadejs', 'esbuild', 'highs'],
    // commander and yaml are CommonJS inside and ask for node's own modules by require.
    banner: {
      js: "import { createRequire as __ownRequire } from 'node:module'; const require = __ownRequire(import.meta.url);",
    },
    define: { __VERSION__: JSON.stringify(version) },
    logLevel: 'error',
  });
  await writeSchemas();
  const launcher = path.join(dist, 'tackwright.js');
  copyFileSync(path.join(root, 'tests/tooling/launcher.js'), launcher);
  chmodSync(launcher, 0o755);
}

/** The JSON Schemas of job and rack files, for editors, made from the schemas that read them. */
async function writeSchemas() {
  const made = await build({
    absWorkingDir: root,
    entryPoints: ['src/job/json-schema.ts'],
    bundle: true,
    write: false,
    format: 'esm',
    platform: 'node',
    logLevel: 'error',
  });
  const code = Buffer.from(made.outputFiles[0].contents).toString('base64');
  const { jobJsonSchema, rackJsonSchema } = await import(`data:text/javascript;base64,${code}`);
  const write = (name, schema) =>
    writeFileSync(path.join(dist, name), JSON.stringify(schema, null, 2) + '\n');
  write('job.schema.json', jobJsonSchema());
  write('rack.schema.json', rackJsonSchema());
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  await bundle();
  if (process.argv.includes('--types') && existsSync(path.join(root, 'node_modules/typescript'))) {
    const tsc = path.join(root, 'node_modules/typescript/bin/tsc');
    const made = spawnSync(process.execPath, [tsc, '-p', 'tests/tooling/types.tsconfig.json'], {
      cwd: root,
      stdio: 'inherit',
    });
    process.exitCode = made.status ?? 1;
  }
}
