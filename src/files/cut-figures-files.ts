import { degrees, roundTo } from '../base/numbers.js';
import { breakEvenOf, fromFlange, type CutFigures, type CutList } from '../design/pieces/index.js';
import type { ShopSpec } from '../job/shop.js';
import { writeCsv } from './csv.js';

const mm = (length: number): number => roundTo(length, 3);
const deg = (angle: number): number => roundTo(degrees(angle), 6);
const money = (cost: number): number | null => (Number.isFinite(cost) ? roundTo(cost, 4) : null);

/** What a cut list comes to, as plain data beside it, with every figure it was made from. mm and degrees. */
export function figuresRecord(figures: CutFigures, shop: ShopSpec): Readonly<Record<string, unknown>> {
  const { estimates, miss, byWelds, zones, nearHeat, tape } = figures;
  const { welding, hand, cradlePlace, weldOffWrench, weldPrice } = shop;
  const even = breakEvenOf(byWelds);
  return {
    estimates,
    made_from: {
      weld_price: weldPrice ?? null,
      fit_up: welding.fitUp,
      travel: welding.travel,
      bead: welding.beadSection,
      deposition: welding.deposition,
      purge_flow: welding.purgeFlow,
      purge_changes: welding.purgeChanges,
      hand: { cut: hand.cut, tilt: roundTo(degrees(hand.tilt), 9), clock: roundTo(degrees(hand.clock), 9) },
      cradle_place: cradlePlace,
      weld_off_wrench: weldOffWrench,
    },
    stock_by_welds: byWelds.map(({ welds, cost, proved }) => ({ welds, cost: money(cost), proved })),
    break_even_weld: even === undefined ? null : { welds: even.welds, price: money(even.price) },
    expected_miss: miss.map(({ primary, hand: free, held }) => ({
      primary,
      free_hand: mm(free.rms),
      by_cuts: mm(free.cut),
      by_tilt: mm(free.tilt),
      by_clocking: mm(free.clock),
      in_cradles: held === undefined ? null : mm(held),
    })),
    no_weld: zones.flatMap(({ primary, zones: own }) =>
      own.map(({ from, to, what, path }) => ({ primary, from: mm(from), to: mm(to), what, key: path })),
    ),
    welds_more_than_counted: zones.reduce((sum, { more }) => sum + more, 0),
    rounded_marks: tape.length === 0 ? null : roundedMarks(tape, shop.tape.step),
    near_heat: nearHeat.map((one) => ({ ...one, at: mm(one.at), room: mm(one.room) })),
  };
}

/** How each piece comes out where it is cut and turned exactly at its rounded marks, and where the ends then are. */
function roundedMarks(tape: CutFigures['tape'], step: number): Readonly<Record<string, unknown>> {
  const off = ({ distance, angle }: { distance: number; angle: number }) => ({
    off: mm(distance),
    turned: deg(angle),
  });
  return {
    step: roundTo(step, 6),
    ends: tape.map(({ primary, miss, missByDegrees }) => ({
      primary,
      ...off(miss),
      turned_by_degrees: off(missByDegrees),
    })),
    pieces: tape.flatMap(({ pieces }) =>
      pieces.map(({ piece, length, bend }) =>
        bend === undefined
          ? { id: piece, length: roundTo(length ?? 0, 6) }
          : {
              id: piece,
              angle: deg(bend.angle),
              leg_up: roundTo(bend.legUp, 6),
              leg_down: roundTo(bend.legDown, 6),
              clock: deg(bend.clock),
              angle_off: deg(bend.angleOff),
              clock_off: deg(bend.clockOff),
            },
      ),
    ),
  };
}

/** One line a weld: where it is from the flange, what it joins, its seam, the time its arc burns and the filler in it. */
export function weldsCsv(list: CutList, { estimates }: CutFigures, { welding }: ShopSpec): string {
  const { filler, seam } = estimates;
  return writeCsv(
    [
      'weld',
      'primary',
      'at mm from flange',
      'kind',
      'piece before',
      'piece behind',
      'seam mm',
      'arc min',
      'filler g',
    ],
    list.welds.map((weld) => {
      const { id, primary, kind, length } = weld;
      return [
        id,
        primary,
        fromFlange(list, weld),
        kind,
        list.pieces.find(({ weldDown }) => weldDown === id)?.id,
        list.pieces.find(({ weldUp }) => weldUp === id)?.id,
        length,
        length / welding.travel,
        filler === undefined ? undefined : (filler * 1000 * length) / seam,
      ];
    }),
  );
}
