import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { command, inFolder } from '../support/command.js';

/** The demo with one text in one of its files in another's place, and what a command says of that. */
async function told(
  name: string,
  change: (text: string) => string,
  ...args: string[]
): Promise<{ code: number; error: string }> {
  return inFolder(async (folder) => {
    cpSync('fixtures/hillclimb-four', folder, { recursive: true });
    const file = path.join(folder, name);
    writeFileSync(file, change(readFileSync(file, 'utf8')));
    return untouched(folder, args);
  });
}

/** Runs a command that must refuse: exit 2, no trace, nothing written. */
async function untouched(folder: string, args: readonly string[]): Promise<{ code: number; error: string }> {
  const before = readdirSync(folder, { recursive: true }).sort();
  const { code, error } = await command(folder, ...args);
  expect(readdirSync(folder, { recursive: true }).sort()).toEqual(before);
  expect(error).not.toMatch(/\bat .*\.[jt]s:\d/);
  return { code, error };
}

describe('a folder where a file should be', () => {
  it.each([
    [
      'rack.yaml',
      'check',
      /^error {2}job\.yaml:\d+:\d+ {2}rack {2}\[build\/no-file\]\n {2}found {2}rack\.yaml is a folder/,
    ],
    ['rack.yaml', 'build', /^error {2}job\.yaml:\d+:\d+ {2}rack {2}\[build\/no-file\]/],
    ['rack.yaml', 'route', /^error {2}job\.yaml:\d+:\d+ {2}rack {2}\[build\/no-file\]/],
    [
      'routes.yaml',
      'check',
      /^error {2}routes\.yaml {2}\[build\/no-file\]\n {2}found {2}routes\.yaml is a folder/,
    ],
    ['routes.yaml', 'build', /^error {2}routes\.yaml {2}\[build\/no-file\]/],
    ['routes.yaml', 'route', /^error {2}routes\.yaml {2}\[build\/no-file\]/],
  ])('%s, %s', async (name, verb, pattern) => {
    await inFolder(async (folder) => {
      cpSync('fixtures/hillclimb-four', folder, { recursive: true });
      rmSync(path.join(folder, name));
      mkdirSync(path.join(folder, name));
      const { code, error } = await untouched(folder, [verb, 'job.yaml']);
      expect(code).toBe(2);
      expect(error).toMatch(pattern);
    });
  });
});

it('a rack that is not there is told at its line in the job', async () => {
  const { code, error } = await told('job.yaml', (text) => text.replace('rack: rack.yaml', 'rack: rak.yaml'), 'check', 'job.yaml'); // prettier-ignore
  expect(code).toBe(2);
  expect(error).toMatch(
    /^error {2}job\.yaml:\d+:\d+ {2}rack {2}\[build\/no-file\]\n {2}found {2}there is no rack file rak\.yaml/,
  );
});

it.each([
  [(text: string) => text.replaceAll('quantity: unlimited', 'quantity: 0'), 'the rack has 0 of every bend'],
  [(text: string) => text.replace(/bends:\n(?: {2}-.*\n)*/, 'bends: []\n'), 'the rack has no bends'],
])('a rack without a bend to route with is refused before the search', async (change, what) => {
  const { code, error } = await told('rack.yaml', change, 'route', 'job.yaml');
  expect(code).toBe(2);
  expect(error).toContain('[rack/empty]');
  expect(error).toContain(what);
});

describe('a record edited wrongly stops what is made along it', () => {
  it.each([
    ['unit: mm', 'unit: in', 'unit', /unit is "in"/],
    ['slot: S3', 'slot: S9', 'primaries.1.slot', /P2 ends at S9, and the collector has S1, S2, S3, S4/],
    ['slot: S3', 'slot: S2', 'primaries.1.slot', /P1 and P2 both end at S2/],
    ['id: P2', 'id: P1', 'primaries.1.id', /P1 stands twice/],
    ['388', '1e300', 'primaries.0.rows.4.straight', /is 1e\+300/],
  ])('%s -> %s', async (from, to, key, what) => {
    const change = (text: string): string => {
      const bare = text.replaceAll('"', '');
      expect(bare).toContain(from);
      return bare.replace(from, to);
    };
    const { code, error } = await told('routes.yaml', change, 'build', 'job.yaml', '--only', 'primary');
    expect(code).toBe(2);
    expect(error).toMatch(what);
    expect(error).toMatch(
      new RegExp(`^error {2}routes\\.yaml:\\d+:\\d+ {2}${key.replaceAll('.', '\\.')} `, 'm'),
    );
  });

  it('two slots changed for each other: the rows end nearest to the other', async () => {
    const change = (text: string): string =>
      text
        .replaceAll('"', '')
        .replace('slot: S3', 'slot: S0')
        .replace('slot: S2', 'slot: S3')
        .replace('slot: S0', 'slot: S2');
    const { code, error } = await told('routes.yaml', change, 'build', 'job.yaml', '--only', 'primary');
    expect(code).toBe(2);
    expect(error).toContain('P1 is said to end at S3, and its rows end nearest to S2');
    expect(error).toContain('P2 is said to end at S2, and its rows end nearest to S3');
  });

  it('an empty record is told in its own words', async () => {
    const { code, error } = await told('routes.yaml', () => '', 'build', 'job.yaml', '--only', 'primary');
    expect(code).toBe(2);
    expect(error).toContain('[route/bad-record]');
    expect(error).toContain('without a record nothing says how the tubes run');
  });
});

it.each([
  [
    '{ P1-1: { leg_up: 4999 } }',
    'leg_up',
    /leg_up of P1-1 is 4999 mm, and B\d, which it was sawn from, gives 110 mm at most/,
  ],
  ['{ P1-3: { length: 1011 } }', 'length', /length of P1-3 is 1011 mm, and T\d, .* gives 1010 mm at most/],
])('a measure that no stock gives is refused: %s', async (asCut, key, what) => {
  const { code, error } = await told('job.yaml', (text) => `${text}as_cut: ${asCut}\n`, 'build', 'job.yaml', '--only', 'cut-list'); // prettier-ignore
  expect(code).toBe(2);
  expect(error).toMatch(what);
  expect(error).toMatch(new RegExp(`job\\.yaml:\\d+:\\d+ {2}as_cut\\.P1-\\d\\.${key} `));
});
