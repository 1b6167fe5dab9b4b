import { describe, expect, it } from 'vitest';
import { readYaml, readYamlValue } from '../../src/read/yaml.js';

const codes = (text: string): string[] => readYaml(text).problems.map((p) => p.code);

/** The one problem of a text, as `line:column code`. */
function told(text: string): string {
  const { problems, value } = readYaml(text, 'job.yaml');
  expect(value).toBeUndefined();
  const [problem] = problems;
  expect(problem?.place?.file).toBe('job.yaml');
  expect(`${problem?.what ?? ''}${problem?.fix ?? ''}`).not.toMatch(/implicit|scalar|token|compact mapping/i);
  return `${problem?.place?.line ?? 0}:${problem?.place?.column ?? 0} ${problem?.code ?? ''}`;
}

describe('plain data from YAML 1.2', () => {
  it('reads numbers, words, fractions, lists and sections', () => {
    const text = 'a: 92\nb: 1-5/8 in\nc: [1, 2]\nd: { down: 12 }\ne: "304"\nf: 1 5/8"\ng: no\n';
    expect(readYaml(text).value).toEqual({
      a: 92,
      b: '1-5/8 in',
      c: [1, 2],
      d: { down: 12 },
      e: '304',
      f: '1 5/8"',
      g: 'no',
    });
  });

  it('a byte order mark and Windows line ends are passed over, and lines are still counted right', () => {
    const { value, locate } = readYaml('\uFEFFa: 1\r\nb:\r\n  c: 2\r\n');
    expect(value).toEqual({ a: 1, b: { c: 2 } });
    expect(locate('b.c')).toEqual({ line: 3, column: 6 });
    expect(locate('b.c', 'key')).toEqual({ line: 3, column: 3 });
  });

  it('a value named once may be used again, and merged', () => {
    const { value, locate } = readYaml('a: &p { width: 3 }\nb: *p\nc:\n  <<: *p\n  depth: 4\n');
    expect(value).toEqual({ a: { width: 3 }, b: { width: 3 }, c: { width: 3, depth: 4 } });
    expect(locate('c.width')).toEqual({ line: 1, column: 16 });
  });
});

describe('places', () => {
  const text = 'ports:\n  row: { count: 4, pitch: 92 }\nstuds:\n  at:\n    - [-33, 20]\n    - [33, -20]\n';
  const { locate } = readYaml(text);
  it.each([
    ['ports', 'value', 1, 1],
    ['ports.row', 'value', 2, 3],
    ['ports.row.pitch', 'value', 2, 27],
    ['ports.row.pitch', 'key', 2, 20],
    ['studs.at.1', 'value', 6, 7],
    ['studs.at.1.0', 'value', 6, 8],
    // What is not there has the place of the nearest key above it.
    ['ports.row.first', 'value', 2, 3],
    ['studs.at.7', 'value', 4, 3],
    ['flange.thickness', 'value', 1, 1],
    ['', 'value', 1, 1],
  ] as const)('%s (%s) is at %i:%i', (path, which, line, column) => {
    expect(locate(path, which)).toEqual({ line, column });
  });
  it('a path may also be a list of keys', () =>
    expect(locate(['studs', 'at', 1])).toEqual({ line: 6, column: 7 }));
});

describe('texts that cannot be read', () => {
  it.each([
    ['a: 1\nb: [1, 2\nc: 3\n', '3:1 job/syntax'],
    ['a: 1\n\tb: 2\n', '2:1 job/tab'],
    ['a: b: c\n', '1:4 job/syntax'],
    ['a: "x\n', '2:1 job/syntax'],
    ['a: 1\n b: 2\n', '1:4 job/syntax'],
    ['a:1\nb: 2\n', '1:1 job/syntax'],
    ['a: @x\n', '1:4 job/syntax'],
    ['a: {b: 1\nc: 2\n', '2:1 job/syntax'],
    ['a: "\\q"\n', '1:5 job/syntax'],
    ['a: !!float x\n', '1:4 job/syntax'],
    ['- a\nb: 2\n', '2:1 job/syntax'],
    ['a: 1\n---\nb: 2\n', '2:1 job/several-documents'],
    ['', '1:1 job/empty'],
    ['# only a remark\n', '1:1 job/empty'],
    ['- 1\n- 2\n', '1:1 job/not-a-mapping'],
    ['just a line\n', '1:1 job/not-a-mapping'],
    ['a: 1\nb: *c\n', '2:4 job/aliases'],
    ['a: \u0000\n', '1:1 job/not-text'],
  ] as const)('%j: %s', (text, problem) => expect(told(text)).toBe(problem));

  it('a key that stands twice is an error, yet the rest is given, to be checked in the same pass', () => {
    const { value, problems } = readYaml('a: 1\nb: 2\na: 3\n', 'job.yaml');
    expect(value).toEqual({ a: 3, b: 2 });
    expect(problems.map((p) => [p.code, p.place?.line, p.place?.column])).toEqual([
      ['job/duplicate-key', 3, 1],
    ]);
    expect(problems[0]?.what).toContain('"a"');
  });

  it('a section in place of a key is no more than an unknown key, and nothing is said behind our back', async () => {
    const said: unknown[] = [];
    const listen = (warning: unknown): void => void said.push(warning);
    process.on('warning', listen);
    const { value } = readYaml('{ a: 1 }: 2\n[1, 2]: 3\n');
    // Warnings come a tick later.
    await new Promise((resolve) => setImmediate(resolve));
    process.off('warning', listen);
    expect(Object.keys(value ?? {})).toHaveLength(2);
    expect(said).toEqual([]);
  });

  it('one slip gives at most three problems', () => {
    expect(codes('a: [1,\nb: [2,\nc: [3,\nd: [4,\ne: [5,\nf: 1').length).toBeLessThanOrEqual(3);
  });

  it('references that unfold into a billion values are refused at once', () => {
    let bomb = 'a0: &a0 [x, x, x, x, x, x, x, x, x]\n';
    for (let i = 1; i < 9; i++)
      bomb += `a${i}: &a${i} [${Array(9)
        .fill(`*a${i - 1}`)
        .join(', ')}]\n`;
    const start = performance.now();
    expect(codes(bomb)).toEqual(['job/aliases']);
    expect(performance.now() - start).toBeLessThan(2000);
  });

  it('a megabyte and more is refused, unread', () => {
    expect(codes(`a: ${'x'.repeat(1_000_001)}`)).toEqual(['job/too-large']);
    expect(codes(`a: ${'x'.repeat(900_000)}`)).toEqual([]);
  });

  it('brackets nested by the thousand are refused, not crashed on', () => {
    expect(codes(`a: ${'['.repeat(50_000)}`)).toEqual(['job/syntax']);
    expect(codes(`a: ${'['.repeat(5_000)}${']'.repeat(5_000)}`)).toEqual(['job/syntax']);
    expect(codes(`a: ${'['.repeat(90)}${']'.repeat(90)}`)).toEqual([]);
    expect(codes(`a:\n${'- '.repeat(20_000)}1\n`)).toEqual(['job/syntax']);
    expect(readYaml(`a: 1\nb: ${'{c: '.repeat(101)}`).problems[0]?.place).toMatchObject({
      line: 2,
      column: 404,
    });
  });
});

describe('single values, as after an equals sign', () => {
  it.each([
    ['94mm', '94mm'],
    ['94', 94],
    ['[-33, 20]', [-33, 20]],
    ['{ down: 12 }', { down: 12 }],
    ['true', true],
  ] as const)('%s', (text, value) => expect(readYamlValue(text)).toEqual({ value }));
  it.each(['', '  ', '[1, 2', '"x', '*a'])('%j cannot be read', (text) =>
    expect(readYamlValue(text)).toHaveProperty('reason'),
  );
});
