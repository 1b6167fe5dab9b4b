/**
 * The length round an ellipse, mm, by Gauss's arithmetic-geometric mean: the seam of a tube cut square (both
 * radii D/2) or by a plane at a lean b (one radius D/2 / cos b). Exact to rounding after a few rounds.
 * @see Abramowitz and Stegun 17.6 (complete elliptic integral of the second kind by the mean)
 */
export function ellipseLength(a: number, b: number): number {
  let [x, y] = [Math.max(a, b), Math.min(a, b)];
  const long = x;
  let sum = (1 - (y / x) ** 2) / 2;
  let power = 1;
  for (let round = 0; round < 60 && x - y > Number.EPSILON * long; round++) {
    const half = (x - y) / 2;
    [x, y] = [(x + y) / 2, Math.sqrt(x * y)];
    sum += (power * half * half) / (long * long);
    power *= 2;
  }
  return ((2 * Math.PI * long * long) / x) * (1 - sum);
}
