import { tidy } from '../../base/numbers.js';
import type { Reading } from '../reading.js';
import type { Sections } from '../schema/job.js';
import {
  freeHand,
  USUAL_CRADLE_PLACE,
  USUAL_WELD_OFF_WRENCH,
  usualTape,
  usualWelding,
  type ShopSpec,
} from '../shop.js';

/**
 * How the shop works, with its defaults.
 * @param asked whether the job has anything to be sawn; else nothing is noted
 */
export function completeShop(
  { shop: given, studs, tack_fixture: fixture }: Pick<Sections, 'shop' | 'studs' | 'tack_fixture'>,
  asked: boolean,
  reading: Reading,
): ShopSpec {
  const noted = asked || given !== undefined;
  const number = (key: string, value: number | undefined, standard: number, unit: string): number =>
    noted ? reading.other(`shop.${key}`, value, standard, `${tidy(standard)}${unit}`) : (value ?? standard);
  const length = (key: string, value: number | undefined, standard: number, used = true): number =>
    noted && used ? reading.length(`shop.${key}`, value, standard) : (value ?? standard);
  const angle = (key: string, value: number | undefined, standard: number): number =>
    noted ? reading.angle(`shop.${key}`, value, standard) : (value ?? standard);
  const hand = given?.hand;
  return {
    weldPrice: given?.weld_price,
    welding: {
      fitUp: number('fit_up', given?.fit_up, usualWelding.fitUp, ' min'),
      travel: number('travel', given?.travel, usualWelding.travel, ' mm/min'),
      beadSection: number('bead', given?.bead, usualWelding.beadSection, ' mm2'),
      deposition: number('deposition', given?.deposition, usualWelding.deposition, ''),
      purgeFlow: number('purge_flow', given?.purge_flow, usualWelding.purgeFlow, ' l/min'),
      purgeChanges: number('purge_changes', given?.purge_changes, usualWelding.purgeChanges, ''),
    },
    hand: {
      cut: length('hand.cut', hand?.cut, freeHand.cut),
      tilt: angle('hand.tilt', hand?.tilt, freeHand.tilt),
      clock: angle('hand.clock', hand?.clock, freeHand.clock),
    },
    cradlePlace: length('cradle_place', given?.cradle_place, USUAL_CRADLE_PLACE, fixture !== undefined),
    tape: { step: length('tape', given?.tape, usualTape(reading.unit)), unit: reading.unit },
    weldOffWrench: length(
      'weld_off_wrench',
      given?.weld_off_wrench,
      USUAL_WELD_OFF_WRENCH,
      studs !== undefined,
    ),
  };
}
