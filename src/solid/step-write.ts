import type { TDF_Label, XCAFDoc_ShapeTool } from 'replicad-opencascadejs';
import type { Frame } from '../base/frames.js';
import { Refusal } from '../base/problems.js';
import { tolerance } from '../base/tolerance.js';
import { attempt } from './attempt.js';
import { locationOf } from './place.js';
import type { Kernel } from './kernel.js';
import { withScratch } from './scratch.js';
import { shapeOf, type Solid } from './solid.js';
import { settledText } from './step-text.js';

/** A solid as it goes into a file. */
export interface StepBody {
  readonly solid: Solid;
  /** Where something else than the solid's own name is to be read. */
  readonly name?: string;
  /** `#rrggbb`, as a screen shows it (sRGB). */
  readonly colour?: string;
  /** In an assembly: where it stands. On the origin where nothing is said. */
  readonly at?: Frame;
}

export interface StepOptions {
  /** AP242 where nothing is said; AP214 for a CAD that does not know it. */
  readonly schema?: 'AP242' | 'AP214';
  /** The name inside the file header; `part.step` where nothing is said. */
  readonly fileName?: string;
  /** The name of the assembly that holds the bodies. Without it they stand side by side. */
  readonly assembly?: string;
}

/** The kernel's numbers for the schemas. */
const SCHEMA = { AP214: 4, AP242: 5 } as const;

/**
 * Solids as one STEP file, mm, with names and colours. The same solids give the same bytes: the header
 * carries no time, author or organisation. Edges are written in space only: a second copy of each on both its
 * faces would make a flange's file 183 kB instead of 70, and lie off its surface by the tolerance of the edge.
 * @throws Refusal `solid/step-write`, `solid/kernel`.
 * @see ISO 10303-21, ISO 10303-214, ISO 10303-242
 */
export function writeStep(
  kernel: Kernel,
  bodies: readonly StepBody[],
  options: StepOptions = {},
): Uint8Array {
  const { schema = 'AP242', fileName = 'part.step', assembly } = options;
  const work = {
    part: assembly ?? bodies.map(nameOf).join(', '),
    doing: 'writing the STEP file',
    sizes: `${bodies.length} solids, ${schema}`,
    cure: 'build without STEP, or leave out the part that is named last, and report the job file',
  };
  const bytes = attempt(kernel, work, () => {
    for (const { solid } of bodies)
      kernel.oc.BRepLib.SameParameter(shapeOf(solid), tolerance.kernelPoint, false);
    return written(kernel, bodies, assembly, SCHEMA[schema]);
  });
  if (!bytes) throw notWritten(work.part);
  return new TextEncoder().encode(settledText(new TextDecoder().decode(bytes), fileName));
}

const nameOf = ({ solid, name }: StepBody): string => name ?? solid.name;

function written(
  kernel: Kernel,
  bodies: readonly StepBody[],
  assembly: string | undefined,
  schema: number,
): Uint8Array | undefined {
  const { oc } = kernel;
  return withScratch((keep) => {
    const words = (text: string): InstanceType<typeof oc.TCollection_ExtendedString> =>
      keep(new oc.TCollection_ExtendedString(text, true));
    const document = keep(new oc.TDocStd_Document(words('XmlOcaf')));
    oc.XCAFDoc_ShapeTool.SetAutoNaming(false);
    const main = keep(document.Main());
    const shapes = keep(oc.XCAFDoc_DocumentTool.ShapeTool(main));
    const named = (label: TDF_Label, name: string): TDF_Label => {
      keep(oc.TDataStd_Name.Set(label, words(name)));
      return keep(label);
    };
    const whole = assembly === undefined ? undefined : named(shapes.NewShape(), assembly);
    for (const body of bodies) {
      const label = named(shapes.NewShape(), nameOf(body));
      shapes.SetShape(label, shapeOf(body.solid));
      if (body.colour) paint(kernel, main, label, body.colour);
      if (whole) named(placed(kernel, shapes, whole, label, body), nameOf(body));
    }
    shapes.UpdateAssemblies();

    const writer = keep(new oc.STEPCAFControl_Writer(keep(new oc.XSControl_WorkSession()), false));
    writer.SetColorMode(true);
    writer.SetNameMode(true);
    // These stay set in the kernel from one file to the next, so every file sets them all.
    const { Interface_Static: settings } = oc;
    settings.SetCVal('xstep.cascade.unit', 'MM');
    settings.SetCVal('write.step.unit', 'MM');
    settings.SetIVal('write.step.schema', schema);
    settings.SetIVal('write.surfacecurve.mode', 0);
    settings.SetIVal('write.precision.mode', 0);
    settings.SetIVal('write.step.assembly', 2);
    if (!writer.Perform(document, 'out.step', keep(new oc.Message_ProgressRange()))) return undefined;
    const bytes = oc.FS.readFile('/out.step') as Uint8Array;
    oc.FS.unlink('/out.step');
    return bytes;
  });
}

const placed = (
  kernel: Kernel,
  shapes: XCAFDoc_ShapeTool,
  whole: TDF_Label,
  part: TDF_Label,
  { at }: StepBody,
): TDF_Label => withScratch((keep) => shapes.AddComponent(whole, part, keep(locationOf(kernel, at))));

function paint({ oc }: Kernel, main: TDF_Label, label: TDF_Label, colour: string): void {
  const [red = 0, green = 0, blue = 0] = (colour.match(/[0-9a-f]{2}/gi) ?? []).map((pair) =>
    linear(Number.parseInt(pair, 16) / 255),
  );
  withScratch((keep) => {
    const tool = keep(oc.XCAFDoc_DocumentTool.ColorTool(main));
    const paint = keep(new oc.Quantity_ColorRGBA(red, green, blue, 1));
    tool.SetColor(label, paint, oc.XCAFDoc_ColorType.XCAFDoc_ColorSurf);
  });
}

/**
 * The kernel takes colours as amounts of light, and writes them as a screen shows them.
 * @see IEC 61966-2-1 (sRGB)
 */
const linear = (shown: number): number =>
  shown <= 0.04045 ? shown / 12.92 : ((shown + 0.055) / 1.055) ** 2.4;

const notWritten = (part: string): Refusal =>
  new Refusal([
    {
      code: 'solid/step-write',
      severity: 'error',
      what: `${part}: the kernel wrote no STEP file`,
      why: 'there is no 3D file to hand on; drawings and cut files are not touched by this',
      fix: 'build with the other formats, and report the job file',
    },
  ]);
