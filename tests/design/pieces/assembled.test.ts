import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { planPieces } from '../../../src/design/pieces/plan-pieces.js';
import { cutListRecord } from '../../../src/design/pieces/record.js';
import { linesByHand } from '../../../src/design/routes-by-hand.js';
import { readJob, readRack } from '../../../src/job/index.js';
import type { Record_ } from '../../support/check-cut-list.js';
import { far, march, unit, type Row } from '../../support/plain-march.js';
import { plainRouteJob } from '../../support/plain-route-job.js';

const read = (path: string): string =>
  readFileSync(new URL(`../../../fixtures/${path}`, import.meta.url), 'utf8');

function recordOf(text: string): Record_ {
  const job = readJob(text).value;
  const rack = readRack(read('hillclimb-four/rack.yaml')).value;
  if (!job || !rack) throw new Error('did not read');
  const routes = [...linesByHand(job)].map(([id, line]) => {
    return { id, line, rows: job.primaries?.byHand[id] ?? [] };
  });
  const { value } = planPieces(job, routes, rack);
  if (!value) throw new Error('no plan');
  return JSON.parse(JSON.stringify(cutListRecord(value))) as Record_;
}

/**
 * A bend piece as it lies in its stock, from A to B: the leg kept at A, the arc, the leg kept at B. Turned end
 * for end where the gas runs from B to A; the side to which it bends stays the same.
 */
function asItComes(piece: Record_['pieces'][number]): Row[] {
  const leg = Math.max(piece.leg_up, piece.leg_down);
  const fromA: Row[] = [
    { straight: piece.end === 'A' ? leg : 0 },
    { clr: piece.clr, angle: piece.arc_from_tangent[1] - piece.arc_from_tangent[0], clock: piece.clock },
    { straight: piece.end === 'B' ? leg : 0 },
  ];
  return piece.reversed ? fromA.reverse() : fromA;
}

describe('pieces taken from their stock end for end, welded up through their clockings', () => {
  const text = read('by-hand-four/job.yaml');
  const plain = plainRouteJob(text);
  const written = parse(text) as {
    collector: { at: [number, number, number]; flow: [number, number, number]; slots: string[] };
  };
  const slots = plain.slotsAt({ at: written.collector.at, flow: unit(written.collector.flow), clocking: 0 });

  it.each([
    ['butted', 'butt', 0],
    // 10 mm of plate less the usual recess of 2, and a socket 4 deep, along a tube that leans 12 degrees.
    ['set through the flange', 'through', 8 / Math.cos((12 * Math.PI) / 180)],
    ['in a socket', '{ socket: { depth: 4 } }', 4 / Math.cos((12 * Math.PI) / 180)],
  ])(
    '%s: each ends in its slot to 1e-6 mm, and is as long as its route and the joint together',
    (_, joint, own) => {
      const record = recordOf(text.replace('joint_at_flange: butt', `joint_at_flange: ${joint}`));
      const bends = record.pieces.filter(({ kind }) => kind === 'bend');
      expect(new Set(bends.map(({ reversed }) => reversed))).toEqual(new Set([true, false]));
      plain.starts.forEach(({ id, at, flow, reference }, i) => {
        const pieces = record.pieces.filter(({ primary }) => primary === id);
        const rows = pieces.flatMap((piece): Row[] =>
          piece.kind === 'straight' ? [{ straight: piece.length }] : asItComes(piece),
        );
        const made = march(at, flow, reference, [{ straight: -own }, ...rows], 5);
        const slot = slots.find((one) => one.id === written.collector.slots[i]);
        if (!slot) throw new Error('no slot');
        expect(far(made.end.at, slot.at), id).toBeLessThan(1e-6);
        expect(far(made.end.flow, slot.flow), id).toBeLessThan(1e-8);
        // All four routes are 615 mm long (as the job's length says), to what eight decimals of its rows hold.
        const sum = pieces.reduce(
          (total, p) =>
            total +
            (p.kind === 'straight' ? p.length : p.leg_up + (p.clr * p.angle * Math.PI) / 180 + p.leg_down),
          0,
        );
        expect(Math.abs(sum - 615 - own), id).toBeLessThan(1e-6);
      });
    },
  );
});
