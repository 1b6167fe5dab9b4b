import type { StepData_StepModel, STEPControl_Reader, TopoDS_Shape } from 'replicad-opencascadejs';
import { Refusal } from '../base/problems.js';
import { attempt } from './attempt.js';
import { type RoundHoleFound, roundHolesOf } from './holes.js';
import type { Kernel } from './kernel.js';
import { boundsOfShape } from './bounds.js';
import { isSound, piecesOf, volumeOf } from './measure.js';
import { withScratch } from './scratch.js';
import { type Box, type Solid, shapeOf, solidOf } from './solid.js';
import { namesIn, type NamesUnder, schemaIn } from './step-text.js';

/** What is measured on one solid of a STEP file. Lengths in mm, whatever the file's own unit. */
export interface StepSolid {
  /** The product's name, or the name of its place in an assembly; undefined where the file gives none. */
  readonly name: string | undefined;
  readonly valid: boolean;
  readonly volume: number;
  readonly bounds: Box;
  /** Round holes that go all the way round, largest first. */
  readonly holes: readonly RoundHoleFound[];
}

export interface StepReading {
  readonly schema: string | undefined;
  readonly solids: readonly StepSolid[];
}

/**
 * Reads a STEP file and measures every solid in it, so that a written file is known by what it holds.
 * @throws Refusal `solid/step-read`.
 */
export function readStep(kernel: Kernel, bytes: Uint8Array, fileName = 'part.step'): StepReading {
  const opened = openStep(kernel, bytes, fileName);
  const solids = opened.map((solid): StepSolid => {
    const shape = shapeOf(solid);
    const { name, volume, bounds } = solid;
    return {
      name: name === '' ? undefined : name,
      valid: isSound(kernel, shape),
      volume,
      bounds,
      holes: roundHolesOf(kernel, shape),
    };
  });
  for (const solid of opened) solid.dispose();
  return { schema: schemaIn(new TextDecoder().decode(bytes.subarray(0, 4096))), solids };
}

/**
 * The solids of a STEP file, to be worked on: a keep-out that becomes a mesh. Measured, not proved: nothing
 * was asked of them. A solid without a name bears an empty one.
 * @throws Refusal `solid/step-read`.
 */
export function openStep(kernel: Kernel, bytes: Uint8Array, fileName = 'part.step'): Solid[] {
  const work = {
    part: fileName,
    doing: 'reading the STEP file',
    sizes: `${bytes.length} bytes`,
    cure: 'open it in the CAD it came from and export it again as a solid, AP214 or AP242',
  };
  const solids = attempt(kernel, work, () => {
    const names = namesIn(new TextDecoder().decode(bytes));
    return shapesIn(kernel, bytes, names).map(({ shape, name }) => {
      const [volume, bounds] = [volumeOf(kernel, shape), boundsOfShape(kernel, shape)];
      return solidOf(shape, { name, volume, bounds, measures: [] });
    });
  });
  if (solids.length === 0) throw unreadable(fileName, bytes.length);
  return solids;
}

interface Named {
  readonly shape: TopoDS_Shape;
  readonly name: string;
}

function shapesIn(kernel: Kernel, bytes: Uint8Array, names: NamesUnder): Named[] {
  const { oc } = kernel;
  return withScratch((keep) => {
    const reader = keep(new oc.STEPControl_Reader());
    oc.FS.writeFile('/in.step', bytes);
    const status = reader.ReadFile('in.step');
    oc.FS.unlink('/in.step');
    if (status !== oc.IFSelect_ReturnStatus.IFSelect_RetDone) return [];
    const model = keep(reader.StepModel());
    const found: Named[] = [];
    for (let root = 1; root <= reader.NbRootsForTransfer(); root++) {
      found.push(...underRoot(kernel, reader, model, root, names));
    }
    return found;
  });
}

function underRoot(
  kernel: Kernel,
  reader: STEPControl_Reader,
  model: StepData_StepModel,
  root: number,
  names: NamesUnder,
): Named[] {
  const { oc } = kernel;
  return withScratch((keep) => {
    reader.ClearShapes();
    if (!reader.TransferOneRoot(root, keep(new oc.Message_ProgressRange()))) return [];
    const known = names(model.IdentLabel(keep(reader.RootForTransfer(root))));
    const shapes = piecesOf(kernel, keep(reader.OneShape()), 'solid');
    // Told apart only where every solid has a name of its own, or all share one.
    const nameOf = (i: number): string =>
      (known.length === shapes.length ? known[i] : known.length === 1 ? known[0] : undefined) ?? '';
    return shapes.map((shape, i) => ({ shape, name: nameOf(i) }));
  });
}

const unreadable = (fileName: string, size: number): Refusal =>
  new Refusal([
    {
      code: 'solid/step-read',
      severity: 'error',
      what: `${fileName}: no solid found in ${size} bytes`,
      why: 'without a solid there is nothing to measure, and nothing to keep clear of',
      fix: 'open it in the CAD it came from and export it again as a solid, AP214 or AP242',
      place: { file: fileName },
    },
  ]);
