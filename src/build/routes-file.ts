import type { RouteRecord, Rounding } from '../design/route/index.js';
import { roundingText } from './rounding-text.js';

/** The frozen routes, beside the job. */
export const routesName = 'routes.yaml';
/** Where an older record goes that a new search replaces. */
export const previousName = 'routes.previous.yaml';

const flow = (value: unknown): string =>
  Array.isArray(value)
    ? `[${value.map(flow).join(', ')}]`
    : typeof value === 'object' && value !== null
      ? `{ ${Object.entries(value)
          .map(([key, each]) => `${key}: ${flow(each)}`)
          .join(', ')} }`
      : String(value);

/** The record as YAML that a person can read and change by hand. */
export function routesText(record: RouteRecord, rounding?: Rounding): string {
  const lines = [
    '# The routes as frozen: a build takes the tubes from here. Found by `tackwright route`; may be changed by hand.',
    '# mm and degrees. clock: right hand about the flow, the first from clock_reference, later ones from the bend before.',
    ...(rounding === undefined ? [] : [`# ${roundingText(rounding)}`]),
    'unit: mm',
    `job: ${record.job}`,
    ...(record.jobHash === undefined ? [] : [`jobHash: ${record.jobHash}`]),
    `seed: ${record.seed}`,
    // JSON is YAML too, and quotes any file name.
    ...(record.keep_outs === undefined ? [] : [`keep_outs: ${JSON.stringify(record.keep_outs)}`]),
    `length: ${record.length}`,
    `collector: ${flow(record.collector)}`,
    'primaries:',
  ];
  for (const { id, slot, built, start, rows, end, length } of record.primaries) {
    lines.push(`  - id: ${id}`, `    slot: ${slot}`);
    if (built !== undefined) lines.push(`    built: ${flow(built)}`);
    lines.push(`    start: ${flow(start)}`, '    rows:');
    for (const row of rows) lines.push(`      - ${flow(row)}`);
    lines.push(`    end: ${flow(end)}`, `    length: ${length}`);
  }
  return lines.join('\n') + '\n';
}
