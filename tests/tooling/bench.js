// `npm run bench`: prints figures and ratios; asserts nothing. `npm run bench -- NAME` runs one of them.
import { existsSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const here = fileURLToPath(new URL('.', import.meta.url));
const known = readdirSync(here)
  .map((file) => /^bench-(.+)\.ts$/.exec(file)?.[1])
  .filter((name) => name !== undefined);
// The first word names a bench; what follows is for the bench itself.
const [first, ...rest] = process.argv.slice(2);
const asked = first === undefined ? [] : [first];
const unknown = asked.filter((name) => !known.includes(name));
if (unknown.length > 0) {
  console.error(`There is no bench ${unknown.join(', ')}; there are ${known.join(', ')}.`);
  process.exit(2);
}
process.argv.splice(2, Infinity, ...rest);
for (const name of asked.length > 0 ? asked : known) {
  const source = path.join(here, `bench-${name}.ts`);
  const made = path.join(here, '../../dist', `bench-${name}.js`);
  await build({
    entryPoints: [source],
    outfile: made,
    bundle: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    external: ['replicad', 'replicad-opencascadejs', 'highs', 'esbuild', 'manifold-3d'],
    define: { __VERSION__: '"bench"' },
    banner: {
      js: "import { createRequire as __ownRequire } from 'node:module'; const require = __ownRequire(import.meta.url);",
    },
    logLevel: 'error',
  });
  if (!existsSync(made)) continue;
  console.log(`\n== ${name}`);
  await import(made);
}
