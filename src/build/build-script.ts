import { readFileSync } from 'node:fs';
import path from 'node:path';
import { Refusal, type Problem } from '../base/problems.js';
import type { DxfOptions } from '../files/index.js';
import type { Part } from '../design/parts.js';
import { buildParts } from './build-parts.js';
import { optionName, readDimension } from './dimension.js';
import type { Format } from './formats.js';
import { failed } from './load-script.js';
import { timed, type BuildReport, type Watch } from './report.js';
import type { AnyScript } from './script.js';

/** A script to be run with the dimensions given on the command line. */
export interface ScriptOrder extends Watch {
  readonly script: AnyScript;
  readonly file: string;
  /** Text as given, by dimension. */
  readonly given: Readonly<Record<string, string>>;
  readonly formats: readonly Format[] | undefined;
  readonly folder: string | undefined;
  readonly root: string;
  readonly dxf: DxfOptions;
}

/** Draws the script's parts with its dimensions set, and builds them as a job's parts are built. */
export async function buildScript(order: ScriptOrder): Promise<BuildReport> {
  const { script, file } = order;
  const name = path.basename(file).replace(/\.[^.]+$/, '');
  const values = readAll(script, order.given);
  const parts = await timed(order, 'draw', () => drawn(script, values, file));
  const made = await buildParts({
    name,
    source: JSON.stringify([readFileSync(file, 'utf8'), values]),
    parts,
    chosen: parts,
    formats: order.formats,
    folder: order.folder ?? path.join(order.root, 'exports', name),
    dxf: order.dxf,
    printerBed: [Infinity, Infinity, Infinity],
    extra: [],
    extraInputs: {},
    whole: undefined,
    watch: order,
  });
  return { ...made, name, job: undefined, cutList: undefined, parts };
}

function readAll(script: AnyScript, given: Readonly<Record<string, string>>): Record<string, unknown> {
  const problems: Problem[] = [];
  const values: Record<string, unknown> = {};
  for (const [name, dimension] of Object.entries(script.dimensions)) {
    const text = given[name];
    if (text === undefined) {
      values[name] = dimension.value;
      continue;
    }
    const reading = readDimension(dimension, text, 'mm');
    if ('value' in reading) values[name] = reading.value;
    else
      problems.push({
        code: 'build/bad-dimension',
        severity: 'error',
        what: `--${optionName(name)}: ${reading.reason}`,
        why: `it is the ${dimension.about}`,
        fix: reading.fix,
      });
  }
  if (problems.length > 0) throw new Refusal(problems);
  return values;
}

function drawn(script: AnyScript, values: Record<string, unknown>, file: string): readonly Part[] {
  let parts: readonly Part[];
  try {
    const made: Part | readonly Part[] = script.draw(values);
    parts = 'kind' in made ? [made] : made;
  } catch (reason) {
    // The class may come from the built library while this runs from the sources, so the name decides.
    if (reason instanceof Error && reason.name === 'Refusal') throw new Refusal((reason as Refusal).problems);
    throw new Refusal([failed(file, reason)]);
  }
  return parts;
}
