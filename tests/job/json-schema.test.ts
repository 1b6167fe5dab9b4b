import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readJob } from '../../src/job/index.js';
import { jobJsonSchema } from '../../src/job/json-schema.js';
import { readYaml } from '../../src/read/yaml.js';
import * as jobs from '../support/jobs.js';
import { misfits } from '../support/json-schema.js';

const schema = jobJsonSchema();
const check = (text: string): string[] => misfits(readYaml(text).value, schema);

/** All schemas under a schema, with the keys that lead to them. */
function walk(node: unknown, path: string[] = []): { path: string[]; node: Record<string, unknown> }[] {
  if (typeof node !== 'object' || node === null) return [];
  if (Array.isArray(node)) return node.flatMap((one, i) => walk(one, [...path, String(i)]));
  return [
    { path, node: node as Record<string, unknown> },
    ...Object.entries(node).flatMap(([key, one]) => walk(one, [...path, key])),
  ];
}

describe('the JSON Schema for editors', () => {
  it('says which draft it is written in', () => {
    expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
  });

  it.each(Object.entries(jobs))('%s fits it, and reads without an error', (_, text) => {
    expect(check(text)).toEqual([]);
    expect(readJob(text).problems.filter((p) => p.severity === 'error')).toEqual([]);
  });

  const fixtures = new URL('../../fixtures/', import.meta.url);
  const headers = readdirSync(fixtures, { withFileTypes: true }).flatMap((one) =>
    one.isDirectory() ? one.name : [],
  );
  it.each(headers)('the header %s fits it, and reads without an error', (name) => {
    const text = readFileSync(new URL(`${name}/job.yaml`, fixtures), 'utf8');
    expect(check(text)).toEqual([]);
    expect(readJob(text).problems.filter((p) => p.severity === 'error')).toEqual([]);
  });

  it.each([
    ['thickness: 10, material', 'thicknes: 10, material', '.flange additional thicknes'],
    ['wrench: {', 'wranch: {', ' additional wranch'],
    ['pitch: 92', 'pitch: ninety', '.ports.row.pitch anyOf'],
    ['pitch: 92', 'pitch: "92,5"', '.ports.row.pitch anyOf'],
    ['pitch: 92', 'pitch: -92', '.ports.row.pitch anyOf'],
    ['thickness: 10, material', 'thickness: 16 ga, material', '.flange.thickness anyOf'],
    ['cut_by: plasma', 'cut_by: torch', '.flange.cut_by anyOf'],
    ['count: 4', 'count: 13', '.ports.row.count anyOf'],
    ['od: 42.4, ', '', '.tube required od'],
    ['job: hillclimb-four', '', ' required job'],
    ['printer_bed: [220, 220, 250]', 'printer_bed: [220, 220]', '.tack_fixture.printer_bed anyOf'],
    ['pitch: 92', 'pitch: { value: 92, how: perhaps }', '.ports.row.pitch anyOf'],
  ])('%s -> %s does not fit', (from, to, misfit) => {
    expect(check(jobs.wholeJob.replace(from, to))).toEqual([misfit]);
  });

  it.each([
    ['wall: 1.6, material', 'wall: 16 ga, material'],
    ['pitch: 92', 'pitch: 3-5/8 in'],
    ['pitch: 92', 'pitch: { value: 92 mm, how: guessed }'],
    ['down: 12', 'down: 0.2 rad'],
    ['joint_at_flange: butt', 'joint_at_flange: { socket: { depth: 4 } }'],
    ['{ right: 0.2, up: -1, out: 0.15 }', '{ down: 70, heading: 20 }'],
    ['{ right: 0.2, up: -1, out: 0.15 }', '[0.2, -1, 0.15]'],
    ['slots: shortest', 'slots: [S2, S1, S3, S4]'],
    [
      'by_hand: {}',
      'by_hand: { P1: [{ straight: 40 }, { clr: 63.6, angle: 90, clock: 0 }, { straight: 80 }] }',
    ],
    ['strap: { width: 13, depth: 3 }', 'strap: none'],
  ])('%s -> %s fits', (from, to) => {
    const text = jobs.wholeJob.replace(from, to);
    expect(text).not.toBe(jobs.wholeJob);
    expect(check(text)).toEqual([]);
    expect(readJob(text).problems.filter((p) => p.severity === 'error')).toEqual([]);
  });

  it('explains every key, and says the unit of every quantity', () => {
    for (const { path, node } of walk(schema)) {
      if (path.at(-2) !== 'properties' || path.includes('$defs')) continue;
      expect(node.description, path.join('.')).toMatch(/.{8}/);
      const forms = JSON.stringify(node.anyOf ?? []);
      if (forms.startsWith('[{"type":"number"') && forms.includes('/length"'))
        expect(node.description).toMatch(/94 mm/);
      if (forms.startsWith('[{"type":"number"') && forms.includes('/angle"'))
        expect(node.description).toMatch(/degrees/);
    }
  });

  it('refuses unknown keys in every section', () => {
    const sections = walk(schema).filter(
      ({ node }) => node.type === 'object' && node.properties !== undefined,
    );
    expect(sections.length).toBeGreaterThan(40);
    for (const { node, path } of sections) expect(node.additionalProperties, path.join('.')).toBe(false);
  });
});
