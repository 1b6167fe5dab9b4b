import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { openSolver } from '../../src/build/solver.js';
import { cutListLines } from '../../src/cli/say-cut-list.js';
import { estimatesOf } from '../../src/design/pieces/estimates.js';
import { planPieces, stockFrom, type CutList } from '../../src/design/pieces/index.js';
import type { Solve } from '../../src/design/pieces/linear-program.js';
import { linesByHand } from '../../src/design/routes-by-hand.js';
import { piecesCsv } from '../../src/files/pieces-csv.js';
import { readJob, readRack } from '../../src/job/index.js';

let solve: Solve;
beforeAll(async () => {
  solve = await openSolver();
});

const text = (path: string): string =>
  readFileSync(new URL(`../../fixtures/${path}`, import.meta.url), 'utf8');
const rackText = text('hillclimb-four/rack.yaml');
const shelf = parse(rackText) as {
  bends: { clr: number; angle: number; legs: number[] }[];
  straights: { length: number }[];
};
const paint = {
  strong: (t: string) => t,
  dim: (t: string) => t,
  good: (t: string) => t,
  bad: (t: string) => t,
};

/** The by-hand job with a correction: its cut list, as it is told and as the bench has it. */
function told(asCut = ''): { list: CutList; lines: string[]; csv: Map<string, string>[] } {
  const job = readJob(`${text('by-hand-four/job.yaml')}\n${asCut}\n`).value;
  const rack = readRack(rackText).value;
  if (!job || !rack) throw new Error('the demo is not read');
  const routes = [...linesByHand(job)].map(([id, line]) => ({
    id,
    line,
    rows: job.primaries?.byHand[id] ?? [],
  }));
  const list = planPieces(job, routes, rack, { solve }).value;
  if (!list) throw new Error('no plan');
  const figures = {
    estimates: estimatesOf(list, rack.tube, job.shop.welding),
    miss: [],
    zones: [],
    nearHeat: [],
    tape: [],
    byWelds: [],
  };
  const [heads = [], ...rows] = piecesCsv(list, job.shop.tape)
    .trim()
    .split('\r\n')
    .map((line) => line.split(','));
  return {
    list,
    lines: cutListLines(list, figures, job.shop, paint as never),
    csv: rows.map((row) => new Map(heads.map((head, i) => [head, row[i] ?? '']))),
  };
}

/** What stands in the line of a stock: its shape, where it is from, and the pieces out of it. */
function stockLine(lines: readonly string[], id: string): { shape: string; from: string; pieces: string[] } {
  const found = lines
    .map((line) => /^ {2}([BT]\d+) +(.*) \((.*?)\): (.*)$/.exec(line))
    .find((one) => one?.[1] === id);
  if (!found) throw new Error(`${id} is not told`);
  return { shape: found[2] ?? '', from: found[3] ?? '', pieces: (found[4] ?? '').split(', ') };
}

describe('the stock of a cut list, as it is told', () => {
  it('is what stands at that place in the rack file, and every piece is told once, with the stock it has in the table', () => {
    const { lines, csv } = told();
    const stocks = [...new Set(csv.map((row) => row.get('stock') ?? ''))];
    expect(stocks.length).toBeGreaterThan(4);
    const pieces = stocks.flatMap((id) => {
      const { shape, from, pieces } = stockLine(lines, id);
      const [, kind, place] = /^(bends|straights)\.(\d+)$/.exec(from) ?? [];
      if (kind === 'straights') expect(shape).toBe(`straight ${shelf.straights[Number(place)]?.length}`);
      else {
        const bend = shelf.bends[Number(place)];
        expect(shape).toBe(
          `bend CLR ${bend?.clr}, ${bend?.angle} deg, legs A ${bend?.legs[0]} and B ${bend?.legs[1]}`,
        );
      }
      const own = csv.filter((row) => row.get('stock') === id);
      expect(new Set(own.map((row) => row.get('stock from')))).toEqual(new Set([from]));
      expect([...pieces].sort()).toEqual(own.map((row) => row.get('piece')).sort());
      return pieces;
    });
    expect(pieces.length).toBe(csv.length);
  });

  it('of what is left: 180 deg less the arc sawn out and less the cut, under the name of its stock', () => {
    const { list, lines, csv } = told('as_cut: { P2-2: scrap }');
    const anew = csv.find((row) => row.get('as cut') === 'cut anew');
    const { shape, from, pieces } = stockLine(lines, anew?.get('stock') ?? '');
    expect(anew?.get('stock from')).toBe(from);
    expect(pieces).toContain('P2-2');
    const [, old = ''] = /^left of (B\d+)$/.exec(from) ?? [];
    const sawn = list.pieces.filter(({ stock }) => stock === old);
    expect(sawn).toHaveLength(1);
    const [piece] = sawn;
    if (piece?.kind !== 'bend') throw new Error('no bend');
    // A 2 mm blade through radial faces bites widest at the inside; 0.5 mm is ground off either face. From geometry.
    const inside = piece.clr - 21.2;
    const cut = ((Math.asin(2 / inside) + (2 * 0.5) / inside) * 180) / Math.PI;
    const left = Number(/, ([\d.]+) deg/.exec(shape)?.[1]);
    expect(Math.abs(left - (180 - (piece.angle * 180) / Math.PI - cut))).toBeLessThan(0.051);
    // A second rest of the same stock is told by that stock too; a comma would break the table's cell.
    expect(stockFrom(`${from}, 2`)).toBe(from);
    // The spoilt piece stands beside the stock that it was taken from.
    const [scrap] = list.scrap ?? [];
    expect(stockLine(lines, scrap?.stock ?? '').pieces).toContain('P2-2 (scrap)');
  });

  it('tells beside a first cut that leans how long the end is sawn square before: D/2 tan(lean) more than the leg', () => {
    const { lines } = told();
    const leaning = lines.filter((line) => line.includes('leaning'));
    expect(leaning).toHaveLength(4);
    for (const line of leaning) {
      const [, leg, square] = /(?:leg|straight) ([\d.]+).* first sawn square at ([\d.]+)$/.exec(line) ?? [];
      // 42.4 / 2 tan(12 deg) = 4.506, told to half a millimetre.
      expect(Math.abs(Number(square) - Number(leg) - 4.506)).toBeLessThan(0.51);
    }
  });
});
