export { type Drawing, type DxfOptions } from './dxf/drawing.js';
export { plateDrawing } from './dxf/plate-drawing.js';
export { writeDxf } from './dxf/write.js';
export { fileName, type FileEnding } from './file-name.js';
export { startGauge, type Gauge, type Measure } from './measure/measure.js';
export { measurePlate } from './measure/plate.js';
