/** From routes to what is sawn from what. */
export { bendTableOf } from './bend-table.js';
export { fromFlange, type CutList, type PieceRow } from './cut-list.js';
export { ofAnotherPlan, remadePrimaries, weldsAmiss, type RecordedPiece, type Remade } from './remade.js';
export { planPieces } from './plan-pieces.js';
export type { JobToCut, RouteToCut } from './primaries-to-cut.js';
export { HEAT_DISTANCE } from '../cradle-heat.js';
export { cutFigures, type CutFigures, type ZonedRoute } from './cut-figures.js';
export { onTape, tapeMarks, type TapeMarks } from './tape-marks.js';
export { worstBend } from './as-marked.js';
export { noWeldZones } from './no-weld-zones.js';
export { breakEvenOf } from './weld-price.js';
export { rackAfter, stockFrom, type RackAfter } from './rack-after.js';
export { cutListRecord } from './record.js';
export { weldPlaces, type WeldPlaces } from './weld-places.js';
