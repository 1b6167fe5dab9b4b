import { describe, expect, it } from 'vitest';
import { pages, type Code } from '../../src/base/codes/index.js';
import { command } from '../support/command.js';
import { byCommands } from './codes/by-commands.js';
import { byFolders } from './codes/by-folders.js';
import { bySections } from './codes/by-sections.js';

const triggers = [...bySections, ...byCommands, ...byFolders];

/** Codes that no job brings about, and why. */
const unreachable: Readonly<Partial<Record<Code, string>>> = {
  'cradle/bug': 'stands for a slope or breadth that the program itself would have chosen wrongly',
  'cradle/bad-saddle': 'the schema keeps tack_fixture.cradle.embrace within the same limits',
  'merge/in-pieces': 'the outline joins every bolt to the tubes: a guard behind it',
  'merge/thin-neck': 'the outline is laid wider than the least web round every hole: a guard behind it',
  'pieces/bug': 'a fault of ours',
  'rack/bug': 'a fault of ours',
  'file/mended': 'needs a build killed half way: tests/files/export-crash.test.ts kills them',
  'solid/size': 'the schema and the design keep figures in range: tests/solid/plate.test.ts',
  'solid/kernel': 'a failure of the kernel: tests/solid/kernel.test.ts',
  'solid/open-contour': 'contours are made closed: tests/solid/plate.test.ts opens one',
  'solid/kinked-tube': 'tubes are marched: tests/solid/tube.test.ts kinks one',
  'solid/count': 'the design refuses plates in pieces: tests/solid/kernel.test.ts',
  'solid/unsound': 'a failure of the kernel: tests/solid/kernel.test.ts',
  'solid/volume': 'a failure of the kernel: tests/solid/kernel.test.ts',
  'solid/bounds': 'a failure of the kernel: tests/solid/kernel.test.ts',
  'solid/cradle-limits': 'the design refuses such cradles: tests/solid/cradle.test.ts',
  'solid/saddle': 'a failure of the kernel: tests/solid/cradle.test.ts',
  'solid/mesh': 'a failure of the kernel: the mesh of every print is proved closed',
  'solid/step-write': 'a failure of the kernel',
};

describe('every code', () => {
  it('has a job or a command that brings it about, or a reason why none can', () => {
    const known = new Set<string>([...triggers.map(({ code }) => code), ...Object.keys(unreachable)]);
    expect(Object.keys(pages).filter((code) => !known.has(code))).toEqual([]);
    expect([...known].filter((code) => !(code in pages))).toEqual([]);
    // What can be brought about needs no excuse.
    expect(triggers.map(({ code }) => code).filter((code) => code in unreachable)).toEqual([]);
  });

  it.each(triggers.map((trigger) => [trigger.code, trigger] as const))('%s', async (code, trigger) => {
    const told = await trigger.raise();
    expect(told.map((each) => each.code)).toContain(code);
    const placed = told.filter((each) => each.code === code).map((each) => each.placed);
    expect([...new Set(placed)]).toEqual([trigger.placed]);
  });

  it.each(Object.entries(pages))('explain %s prints its page and what it ends with', async (code, page) => {
    const { code: exit, out } = await command('.', 'explain', code);
    expect(exit).toBe(0);
    expect(out).toContain(`${code}: ${page.title}`);
    expect(out).toContain(page.text);
    expect(out).toMatch(new RegExp(`^Exit code ${page.exit}: .{10,}\\.$`, 'm'));
  });
});
