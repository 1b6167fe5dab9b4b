// Routing round 100,000 triangles against routing round the boxes and capsules they were made from, and what
// a question for the distance costs. Not part of the suite.
//   npm run bench -- meshes [case] [effort] [edge of a triangle, mm]
import { routeJob, type Effort } from '../../src/design/route/index.js';
import { meshDistance } from '../../src/geom/mesh-distance.js';
import { meshSolid } from '../../src/geom/mesh-field.js';
import { openEdgesOf } from '../../src/geom/triangles.js';
import { randomFrom } from '../../src/base/random.js';
import { readStlCorners } from '../../src/read/stl.js';
import { judge } from '../support/judge.js';
import { fieldsOfCase, meshCase } from '../support/mesh-cases.js';
import { binaryStl, flat } from '../support/meshes.js';
import { caseFolder, routingCase } from '../support/routing-cases.js';

const [name = 'i4-steer', effort = 'quick', edge = '5.5'] = process.argv.slice(2);
const seconds = () => (process.cpuUsage().user + process.cpuUsage().system) / 1e6;
function timed<T>(what: string, work: () => T, each = 1): T {
  const from = seconds();
  const made = work();
  const took = seconds() - from;
  console.log(
    `${what.padEnd(46)} ${each === 1 ? `${took.toFixed(2)} s` : `${((1e6 * took) / each).toFixed(2)} us`}`,
  );
  return made;
}
const options = { seed: 1, effort: effort as Effort };
const meshed = meshCase(name, Number(edge));
const skin = [...meshed.skins.values()].flat();
console.log(`${name}, ${effort}, ${skin.length} triangles in ${meshed.skins.size} meshes`);

const bytes = binaryStl(skin);
const triangles =
  timed('reading them as one STL', () => readStlCorners(bytes, 'all.stl').value) ?? flat(skin);
timed('looking for open edges', () => openEdgesOf(triangles));
const tree = timed('building the tree', () => meshDistance(triangles, true));
const field = meshSolid(triangles, true).fieldWithin(40);
const random = randomFrom(1);
const spots = Array.from(
  { length: 100_000 },
  () => [random.between(-250, 500), random.between(-550, 200), random.between(-50, 400)] as const,
);
timed('a question to the tree', () => spots.forEach((p) => tree.signed(...p)), spots.length);
timed(
  'a question to the field, empty',
  () => spots.forEach((p) => field.distance(...p, Infinity)),
  spots.length,
);
timed(
  'a question to the field, filled',
  () => spots.forEach((p) => field.distance(...p, Infinity)),
  spots.length,
);

// Once to warm up, or the first pays for the compiler.
const plain = routingCase(name);
routeJob(plain.job, plain.rack, { ...options, effort: 'quick' });
const before = seconds();
const one = routeJob(plain.job, plain.rack, options);
const boxes = seconds() - before;
const { job, rack } = routingCase(name, meshed.text);
const start = seconds();
const two = routeJob(job, rack, { ...options, fieldOf: fieldsOfCase(meshed) });
const meshes = seconds() - start;
for (const [what, result, took] of [
  ['boxes', one, boxes],
  ['meshes', two, meshes],
] as const) {
  const verdict = result.record && judge(caseFolder(name), result.record);
  const judged =
    verdict === undefined ? '' : verdict.faults.join('; ') || `good, ${verdict.spare.toFixed(2)} mm spare`;
  console.log(
    `${what.padEnd(7)} ${took.toFixed(2).padStart(6)} s  ${result.outcome}, ${result.welds} welds, bound ${result.bound}; judged ${judged}`,
  );
}
console.log(
  `meshes cost ${(meshes / boxes).toFixed(2)} times as much (trees built and skins checked included)`,
);
