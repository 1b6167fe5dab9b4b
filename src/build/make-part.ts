import type { CradlePart, Part, PlatePart } from '../design/parts.js';
import {
  fileName,
  measureMesh,
  measurePlate,
  measureStep,
  plateDrawing,
  plateSvg,
  provedMeasures,
  write3mf,
  writeDxf,
  writeStl,
  type DxfOptions,
  type Measure,
} from '../files/index.js';
import {
  cradleSolid,
  meshOf,
  openKernel,
  plateSolid,
  readStep,
  tubeSolid,
  writeStep,
  type Kernel,
  type Solid,
} from '../solid/index.js';
import { letter } from '../design/lettering.js';
import type { Format } from './formats.js';

/** One file of a part, in memory. */
export interface MadeFile {
  readonly path: string;
  readonly bytes: Uint8Array | string;
}

/** A part's files and how they measured when read back. */
export interface MadePart {
  readonly files: readonly MadeFile[];
  readonly measures: readonly Measure[];
}

/** What a build needs to know beyond the part itself. */
export interface MakeOptions {
  readonly dxf: DxfOptions;
  readonly printerBed: readonly [number, number, number];
}

/**
 * Makes the files of one part, reads each back and measures it. The kernel is opened only where a solid is
 * asked for: a plate's DXF and SVG need none.
 * @throws Refusal from the kernel, naming the part and the cure
 */
export async function makePart(
  part: Part,
  asked: readonly Format[],
  options: MakeOptions,
): Promise<MadePart> {
  const files: MadeFile[] = [];
  const measures: Measure[] = [];
  if (part.kind === 'plate') await flatFiles(part, asked, options, files, measures);
  const solidFormats = asked.filter((format) => format === 'step' || format === 'stl' || format === '3mf');
  if (solidFormats.length === 0) return { files, measures };
  const kernel = await openKernel();
  const solid = solidOf(kernel, part);
  try {
    measures.push(...provedMeasures(part, solid));
    if (asked.includes('step')) {
      const name = fileName(part, 'step');
      const bytes = writeStep(kernel, [{ solid, name: part.name }], { fileName: name });
      measures.push(...measureStep(part, solid, readStep(kernel, bytes, name)));
      files.push({ path: name, bytes });
    }
    if (part.kind === 'cradle') await printFiles(kernel, part, solid, asked, options, files, measures);
  } finally {
    solid.dispose();
  }
  return { files, measures };
}

function solidOf(kernel: Kernel, part: Part): Solid {
  if (part.kind === 'plate') return plateSolid(kernel, part);
  if (part.kind === 'tube') return tubeSolid(kernel, part);
  return cradleSolid(kernel, part, letter(part.engraving.text, part.engraving.height));
}

async function flatFiles(
  part: PlatePart,
  asked: readonly Format[],
  { dxf }: MakeOptions,
  files: MadeFile[],
  measures: Measure[],
): Promise<void> {
  if (asked.includes('dxf')) {
    const text = writeDxf(plateDrawing(part), dxf);
    measures.push(...(await measurePlate(text, part, dxf)));
    files.push({ path: fileName(part, 'dxf', dxf.unit ?? 'mm'), bytes: text });
  }
  if (asked.includes('svg')) files.push({ path: fileName(part, 'svg'), bytes: plateSvg(part) });
}

async function printFiles(
  kernel: Kernel,
  part: CradlePart,
  solid: Solid,
  asked: readonly Format[],
  { printerBed }: MakeOptions,
  files: MadeFile[],
  measures: Measure[],
): Promise<void> {
  const mesh = meshOf(kernel, solid);
  const bodies = [{ name: part.name, mesh }];
  for (const format of ['3mf', 'stl'] as const) {
    if (!asked.includes(format)) continue;
    const bytes = format === '3mf' ? await write3mf(bodies) : writeStl(mesh, part.name);
    measures.push(...(await measureMesh(part, solid, bytes, format, printerBed)));
    files.push({ path: fileName(part, format), bytes });
  }
}
