import initOther from 'opencascade.js/dist/node.js';

/** What an independent reader finds in a STEP file: another build, three releases older, of the same family. */
export interface OtherReading {
  readonly valid: boolean;
  /** A strict check, as a boolean needs it: no small edges, no self-crossing, curves on their surfaces. */
  readonly strict: boolean;
  readonly volume: number;
}

type Other = Awaited<ReturnType<typeof initOther>>;
let opening: Promise<Other> | undefined;

/** Reads a STEP file with the other kernel and measures each solid, in the file's order. It takes 5 s to load. */
export async function readWithOther(bytes: Uint8Array): Promise<OtherReading[]> {
  opening ??= initOther({ module: { print() {}, printErr() {} } });
  const oc = await opening;
  oc.FS.createDataFile('/', 'in.step', bytes, true, true, true);
  const reader = new oc.STEPControl_Reader_1();
  reader.ReadFile('in.step');
  oc.FS.unlink('/in.step');
  reader.TransferRoots(new oc.Message_ProgressRange_1());
  const kinds = oc.TopAbs_ShapeEnum;
  const walk = new oc.TopExp_Explorer_2(
    reader.OneShape(),
    kinds.TopAbs_SOLID as never,
    kinds.TopAbs_SHAPE as never,
  );
  const found: OtherReading[] = [];
  for (; walk.More(); walk.Next()) {
    const solid = walk.Current();
    const mass = new oc.GProp_GProps_1();
    oc.BRepGProp.VolumeProperties_1(solid, mass, false, false, false);
    const valid = new oc.BRepCheck_Analyzer(solid, true, false).IsValid_2();
    const strict = new oc.BRepAlgoAPI_Check_2(solid, true, true, new oc.Message_ProgressRange_1()).IsValid();
    found.push({ valid, strict, volume: mass.Mass() });
  }
  return found;
}
