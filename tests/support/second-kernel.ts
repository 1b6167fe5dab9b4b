import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';

/** What the second kernel's own reader makes of a STEP file. */
export interface SecondReading {
  readonly valid: boolean;
  readonly solids: number;
  /** mm3 */
  readonly volume: number;
}

/* eslint-disable @typescript-eslint/no-explicit-any -- the kernel's classes are numbered per overload and untyped here */
let opening: Promise<any> | undefined;

/** Opens opencascade.js 2.0.0-beta (OCCT 7.6, another version and build than the program's), 5 to 7 s. */
async function open(): Promise<any> {
  const file = createRequire(import.meta.url).resolve('opencascade.js/dist/node.js');
  const module: any = await import(/* @vite-ignore */ pathToFileURL(file).href);
  const init = typeof module.default === 'function' ? module.default : module.default.default;
  return init();
}

/** Reads STEP bytes with the second kernel: the same file, another reader. */
export async function readBySecondKernel(bytes: Uint8Array): Promise<SecondReading> {
  opening ??= open();
  const oc = await opening;
  oc.FS.writeFile('/part.step', bytes);
  const reader = new oc.STEPControl_Reader_1();
  reader.ReadFile('/part.step');
  reader.TransferRoots(new oc.Message_ProgressRange_1());
  const shape = reader.OneShape();
  const properties = new oc.GProp_GProps_1();
  oc.BRepGProp.VolumeProperties_1(shape, properties, false, false, false);
  const kinds = oc.TopAbs_ShapeEnum;
  const walk = new oc.TopExp_Explorer_2(shape, kinds.TopAbs_SOLID, kinds.TopAbs_SHAPE);
  let solids = 0;
  for (; walk.More(); walk.Next()) solids++;
  const check = new oc.BRepCheck_Analyzer(shape, true, false);
  const reading = { valid: check.IsValid_2() as boolean, solids, volume: properties.Mass() as number };
  for (const each of [reader, shape, properties, walk, check]) each.delete();
  return reading;
}
