import path from 'node:path';
import { type Command, Option } from 'commander';
import { refuseUnknown } from '../build/choices.js';
import { formats, type Format } from '../build/formats.js';
import type { DxfOptions } from '../files/index.js';
import type { Shell } from './shell.js';

/** Options of every command that writes files. */
export interface FileOptions {
  readonly formats?: string;
  readonly out?: string;
  readonly dxf?: 'r2000' | 'r12' | 'r12-arcs';
  readonly dxfUnit?: 'mm' | 'in';
  readonly oneLayer?: boolean;
  readonly json?: boolean;
}

export function addFileOptions(command: Command): Command {
  return command
    .option('--formats <list>', `only these kinds of file: ${formats.join(',')}`)
    .option('--out <folder>', 'write here instead of exports/<name> in the folder you stand in')
    .addOption(
      new Option('--dxf <flavour>', 'for tables that read only older files').choices([
        'r2000',
        'r12',
        'r12-arcs',
      ]),
    )
    .addOption(new Option('--dxf-unit <unit>', 'unit of the DXF coordinates').choices(['mm', 'in']))
    .option('--one-layer', 'put every cut on one layer and leave out what is etched')
    .option('--json', 'print a summary as JSON, for other programs');
}

/** The same, read and checked. */
export function readFileOptions(
  options: FileOptions,
  shell: Shell,
): { formats: readonly Format[] | undefined; folder: string | undefined; root: string; dxf: DxfOptions } {
  const asked = options.formats === undefined ? undefined : listOf(options.formats);
  if (asked !== undefined) refuseUnknown(asked, formats, '--formats');
  return {
    formats: asked as readonly Format[] | undefined,
    folder: options.out === undefined ? undefined : path.resolve(shell.folder, options.out),
    root: shell.folder,
    dxf: {
      ...(options.dxf === undefined ? {} : { flavour: options.dxf }),
      ...(options.dxfUnit === undefined ? {} : { unit: options.dxfUnit }),
      ...(options.oneLayer === true ? { oneLayer: true } : {}),
    },
  };
}

/** `flange, merge-plate` as a list. */
export const listOf = (text: string): string[] =>
  text
    .split(',')
    .map((each) => each.trim())
    .filter((each) => each !== '');

/** Gathers an option that may be given several times. */
export const gather = (value: string, before: string[] = []): string[] => [...before, value];
