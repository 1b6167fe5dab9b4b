/** The solid room's door: the only way to the CAD kernel. */
export { openKernel, type Kernel, type KernelOptions } from './kernel.js';
export { type Box, type Measure, type Solid } from './solid.js';
export { plateSolid } from './plate.js';
export { writeStep, type StepBody, type StepOptions } from './step-write.js';
export { readStep, type StepReading, type StepSolid } from './step-read.js';
export { meshOfStep, type StepMesh } from './step-mesh.js';
export { type RoundHoleFound } from './holes.js';
export { tubeSolid, type TubePiece, type TubeSpec } from './tube.js';
export { meshOf, type Mesh, type MeshOptions } from './mesh.js';
export { cradleSolid } from './cradle.js';
