import type { FieldOf } from '../../src/design/route/index.js';
import { meshSolid, type MeshSolid } from '../../src/geom/mesh-field.js';
import { boxSkin, capsuleSkin, flat, type Corners } from './meshes.js';
import { caseText, routingCase } from './routing-cases.js';

/** A routing case whose boxes and capsules are meshes: its job file, and the skins by file. */
export interface MeshCase {
  readonly text: string;
  readonly skins: ReadonlyMap<string, readonly Corners[]>;
}

/**
 * A case with every box and capsule among its keep-outs as an STL file, edges of about `step` mm; capsules are
 * meshed from outside, so that what is clear of the mesh is clear of the capsule, or left as they are.
 */
export function meshCase(name: string, step: number, capsules = true): MeshCase {
  let text = caseText(name);
  const skins = new Map<string, readonly Corners[]>();
  for (const { name: called, shape } of routingCase(name).job.keepOuts) {
    const skin =
      shape.kind === 'box'
        ? boxSkin(shape.from, shape.to, step)
        : shape.kind === 'capsule' && capsules
          ? capsuleSkin(shape.from, shape.to, shape.diameter, step, true)
          : undefined;
    if (skin === undefined) continue;
    const file = `${called.replace(/\W/g, '-')}.stl`;
    skins.set(file, skin);
    const at = text.indexOf(`- name: ${called}\n`);
    text =
      text.slice(0, at) + text.slice(at).replace(/ {2}(?:box|capsule):\n(?: {4}.*\n)+/, `  mesh: ${file}\n`);
  }
  return { text, skins };
}

/** The fields of a mesh case, straight from its skins. */
export function fieldsOfCase({ skins }: MeshCase, standOff = 0): FieldOf {
  const solids = new Map<string, MeshSolid>();
  for (const [file, skin] of skins) solids.set(file, meshSolid(flat(skin), true, standOff));
  return ({ shape }, exactWithin) =>
    'file' in shape ? solids.get(shape.file)?.fieldWithin(exactWithin) : undefined;
}
