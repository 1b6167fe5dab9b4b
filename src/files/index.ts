export { type Drawing, type DxfOptions } from './dxf/drawing.js';
export { plateDrawing } from './dxf/plate-drawing.js';
export { writeDxf } from './dxf/write.js';
export { fileName, type FileEnding } from './file-name.js';
export { startGauge, type Gauge, type Measure } from './measure/measure.js';
export { measurePlate } from './measure/plate.js';
export { measureStep, provedMeasures } from './measure/step.js';
export { problemsOfMeasures } from './measure/measure-problems.js';
export { problemFromDisk } from './export/disk-problems.js';
export {
  hashOf,
  manifestName,
  manifestText,
  readManifest,
  stateOf,
  verifyManifest,
  type FileRecord,
  type FileState,
  type Manifest,
} from './manifest.js';
export {
  writeExport,
  type Export,
  type ExportFile,
  type ExportHooks,
  type ExportReport,
} from './export/write-export.js';
export { type Box, type Mesh } from './mesh/mesh.js';
export { writeStl } from './mesh/stl.js';
export { write3mf, type Print } from './mesh/three-mf.js';
export { measure3mf, measureMesh, measureStl, type PrintAsked } from './measure/print.js';
export { plateSvg } from './svg/plate-svg.js';
