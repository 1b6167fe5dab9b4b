import { tidy } from '../base/numbers.js';
import { tolerance } from '../base/tolerance.js';
import { INCH } from '../base/units.js';
import type { Tape } from '../job/shop.js';

/** No rule is divided finer, in parts of an inch. */
const FINEST = 128;

/**
 * A length as it is read off the tape: mm as a number; inches with the fraction of the tape's divisions, `3 17/64`,
 * whole inches told even where they are 0, as spreadsheets take a bare 1/4 for a date. Inches that lie on no
 * division, or are not rounded, have four decimals.
 */
export function tapeCell(length: number | undefined, { step, unit }: Tape): number | string | undefined {
  if (length === undefined || unit === 'mm') return length;
  const parts = step > 0 ? Math.round(INCH / step) : 0;
  const halves =
    Math.abs(INCH / parts - step) < tolerance.file && Number.isInteger(Math.log2(parts)) && parts <= FINEST;
  const count = Math.round(Math.abs(length) / step);
  if (!halves || Math.abs(count * step - Math.abs(length)) > tolerance.file) return tidy(length / INCH, 4);
  const whole = Math.floor(count / parts);
  let [over, under] = [count - whole * parts, parts];
  while (over > 0 && over % 2 === 0) [over, under] = [over / 2, under / 2];
  const sign = length < 0 && count > 0 ? '-' : '';
  return over === 0 ? `${sign}${whole}` : `${sign}${whole} ${over}/${under}`;
}
