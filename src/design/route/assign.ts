/**
 * The least total of one entry a row, no column twice: which primary takes which slot at the least cost.
 * Exact, by working down the rows and remembering each set of columns used; for up to a dozen primaries.
 * @param cost by row, then column; Infinity where a pair cannot be
 * @param orders where only these orders (column by row) are allowed
 * @returns Infinity where no assignment can be
 */
export function leastAssignment(
  cost: readonly (readonly number[])[],
  orders?: readonly (readonly number[])[],
): number {
  const rows = cost.length;
  if (orders)
    return Math.min(
      ...orders.map((order) =>
        order.reduce((sum, column, row) => sum + (cost[row]?.[column] ?? Infinity), 0),
      ),
    );
  const least = new Float64Array(1 << rows).fill(Infinity);
  least[0] = 0;
  for (let used = 0; used < least.length; used++) {
    const so = least[used] as number;
    if (so === Infinity) continue;
    let row = 0;
    for (let bits = used; bits !== 0; bits &= bits - 1) row++;
    if (row === rows) continue;
    const line = cost[row] as readonly number[];
    for (let column = 0; column < rows; column++) {
      const next = used | (1 << column);
      if (next === used) continue;
      const sum = so + (line[column] as number);
      if (sum < (least[next] as number)) least[next] = sum;
    }
  }
  return least[least.length - 1] as number;
}

/** As `leastAssignment`, with one row held to one column. */
export const leastAssignmentWith = (
  cost: readonly (readonly number[])[],
  row: number,
  column: number,
  orders?: readonly (readonly number[])[],
): number =>
  leastAssignment(
    cost.map((line, i) => line.map((value, j) => ((i === row) === (j === column) ? value : Infinity))),
    orders,
  );
