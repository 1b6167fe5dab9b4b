const QUARTER = Math.PI / 2;

/** Radians from degrees. */
export const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** Degrees from radians. */
export const degrees = (angle: number): number => (angle * 180) / Math.PI;

/**
 * Cosine and sine of an angle (rad), exact at quarter turns: a part turned by 90 degrees stays square,
 * with no 6e-17 left over to spoil a drawing.
 */
export function cosSin(angle: number): readonly [number, number] {
  const quarters = angle / QUARTER;
  const whole = Math.round(quarters);
  if (Math.abs(quarters - whole) < 1e-12) {
    const turn = ((whole % 4) + 4) % 4;
    return [turn === 0 ? 1 : turn === 2 ? -1 : 0, turn === 1 ? 1 : turn === 3 ? -1 : 0];
  }
  return [Math.cos(angle), Math.sin(angle)];
}

/** Rounds to a number of decimals, never to minus zero. The writers round once, here. */
export function roundTo(value: number, decimals: number): number {
  const rounded = Number(value.toFixed(decimals));
  return rounded === 0 ? 0 : rounded;
}

/** A number as a person writes it: at most `decimals` places, no trailing zeros, no minus zero. */
export const tidy = (value: number, decimals = 3): string => String(roundTo(value, decimals));

/** An angle brought into [0, 2 pi). */
export function turnOf(angle: number): number {
  const full = 2 * Math.PI;
  const turn = ((angle % full) + full) % full;
  return turn === full ? 0 : turn;
}

/** Keeps a value between two limits. */
export const clamp = (value: number, low: number, high: number): number =>
  Math.min(high, Math.max(low, value));
