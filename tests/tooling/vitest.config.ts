import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const root = fileURLToPath(new URL('../..', import.meta.url));

const { version } = JSON.parse(readFileSync(`${root}/package.json`, 'utf8')) as { version: string };

export default defineConfig({
  root,
  define: { __VERSION__: JSON.stringify(version) },
  resolve: { alias: { tackwright: `${root}/src/index.ts` } },
  test: {
    include: ['tests/**/*.test.ts'],
    globalSetup: ['tests/tooling/fresh-bundle.ts'],
    // One kernel for all test files of a worker: opening it costs a third of a second each time.
    isolate: false,
    pool: 'threads',
    maxWorkers: 2,
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
