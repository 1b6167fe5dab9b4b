#!/usr/bin/env node
// The command. In a clone whose sources are newer than the bundle, the bundle is made again first.
import { existsSync, readdirSync, statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const sources = fileURLToPath(new URL('../src', import.meta.url));
if (existsSync(sources)) {
  const built = statSync(new URL('./cli.js', import.meta.url)).mtimeMs;
  const newer = (folder) =>
    readdirSync(folder, { withFileTypes: true }).some((entry) =>
      entry.isDirectory()
        ? newer(`${folder}/${entry.name}`)
        : statSync(`${folder}/${entry.name}`).mtimeMs > built,
    );
  if (newer(sources)) {
    const maker = new URL('../tests/tooling/bundle.js', import.meta.url);
    await (await import(maker.href)).bundle();
  }
}
await import(new URL('./cli.js', import.meta.url).href);
