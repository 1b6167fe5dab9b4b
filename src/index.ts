/** The front door: what a parametric script imports from `tackwright`. Lengths in mm, angles in degrees. */
export {
  angle,
  choice,
  count,
  length,
  text,
  yesOrNo,
  type Dimension,
  type Range,
} from './build/dimension.js';
export { script, type Script, type Values } from './build/script.js';
export {
  mergePlate,
  portFlange,
  strongback,
  tubeCradle,
  type CradleSizes,
  type Sections,
} from './build/draw.js';
export { type Part, type PlatePart, type CradlePart } from './design/parts.js';
export { type Problem, type Place, type Outcome } from './base/problems.js';
