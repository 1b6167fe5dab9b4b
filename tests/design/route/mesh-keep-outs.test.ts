import { describe, expect, it } from 'vitest';
import { certificatesOf } from '../../../src/design/route/certificates.js';
import { armReach } from '../../../src/design/route/arm-reach.js';
import { setProblem, type FieldOf } from '../../../src/design/route/index.js';
import { proveBound } from '../../../src/design/route/prove-bound.js';
import { meshSolid } from '../../../src/geom/mesh-field.js';
import { boxSkin, flat } from '../../support/meshes.js';
import { fieldsOfCase, meshCase } from '../../support/mesh-cases.js';
import { caseText, routingCase } from '../../support/routing-cases.js';

const withBoxes = routingCase('i4-steer');
const meshed = meshCase('i4-steer', 30, false);
const withMeshes = routingCase('i4-steer', meshed.text);

/*
 * A proof that something is blocked may rest only on what is certainly there. A field that falls short of the
 * truth, or a mesh that only stands for a solid, must never make one.
 */
describe('proofs with meshes among the keep-outs', () => {
  it('the same first straights are possible, and the same fewest welds are proved, as with the boxes', () => {
    const plain = setProblem(withBoxes.job, withBoxes.rack);
    const problem = setProblem(withMeshes.job, withMeshes.rack, fieldsOfCase(meshed));
    expect(certificatesOf(problem)).toEqual([]);
    for (const start of [0, 3])
      for (const slot of [0, 2]) {
        const [one, two] = [armReach(plain, start, slot), armReach(problem, start, slot)];
        // Boxes are meshed exactly; a march may stop a quarter of a millimetre inside.
        for (const key of ['first', 'last'] as const) expect(Math.abs(one[key] - two[key])).toBeLessThan(0.3);
      }
    const [one, two] = [proveBound(plain, 4), proveBound(problem, 4)];
    expect(two.welds).toBe(one.welds);
    for (let length = 702; length < 950; length += 50) expect(two.at(length)).toBe(one.at(length));
  });

  it('a field that falls far short where it may proves nothing more than an exact one', () => {
    const fields = fieldsOfCase(meshed);
    // As little as is allowed: just over what must be exact.
    const least: FieldOf = (keepOut, exactWithin) => {
      const field = fields(keepOut, exactWithin);
      if (field === undefined) return undefined;
      const distance = (x: number, y: number, z: number): number => {
        const truth = field.distance(x, y, z, Infinity);
        return truth > exactWithin ? exactWithin + 1e-3 : truth;
      };
      return { ...field, distance };
    };
    const [one, two] = [fields, least].map((of) =>
      proveBound(setProblem(withMeshes.job, withMeshes.rack, of), 8),
    );
    expect(two?.welds).toBe(one?.welds);
    for (let length = 702; length < 950; length += 50) expect(two?.at(length)).toBe(one?.at(length));
  });

  it('a first straight is blocked only by more than the mesh may be off', () => {
    // A plate square across the way of P1, 20 mm along a stub of 20: its near face so far short of clear.
    const blockedAt = (short: number, standOff: number): boolean => {
      const text = caseText('i4-steer').replace(
        '- name: engine block',
        '- {name: plate, clear: 10, mesh: plate.stl}\n- name: engine block',
      );
      const { job, rack } = routingCase('i4-steer', text);
      // The port's axis runs 20 degrees down, so the far end of its stub is 18.794 out.
      const face = 20 * 0.939692620786 + 21.2 + 10 - short;
      const skin = flat(boxSkin([-400, -400, face], [500, 400, face + 20], 60));
      const solid = meshSolid(skin, true, standOff);
      const fieldOf: FieldOf = (_, exactWithin) => solid.fieldWithin(exactWithin);
      return certificatesOf(setProblem(job, rack, fieldOf)).some(
        (proof) => proof.kind === 'stub blocked' && proof.primary === 'P1' && proof.obstacle === 'plate',
      );
    };
    expect(blockedAt(-0.5, 0)).toBe(false);
    expect(blockedAt(0.3, 0)).toBe(true);
    // The mesh may be 1 mm off, so its solid may lie a whole millimetre further away.
    expect(blockedAt(0.3, 1)).toBe(false);
    expect(blockedAt(0.9, 1)).toBe(false);
    expect(blockedAt(1.3, 1)).toBe(true);
  });

  it('without a field for its file a keep-out is never left out', () => {
    expect(() => setProblem(withMeshes.job, withMeshes.rack)).toThrow(/no distance field for .*\.stl/);
  });
});
