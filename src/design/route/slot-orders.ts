import type { CollectorSpec } from '../../job/job.js';

/**
 * Which slot each primary may end in: a list of orders (slot index by primary), or undefined where any will do.
 * `firing`: neighbours round the ring fire in turn; every rotation, both ways round.
 */
export function slotOrders(
  slots: CollectorSpec['slots'],
  count: number,
  firingOrder: readonly number[] | undefined,
): readonly (readonly number[])[] | undefined {
  if (slots === 'shortest') return undefined;
  if (slots !== 'firing') return [slots.map((id) => Number(id.slice(1)) - 1)];
  if (firingOrder === undefined) return undefined;
  const turn = firingOrder.filter((cylinder) => cylinder <= count);
  if (turn.length !== count) return undefined;
  const orders: number[][] = [];
  for (const way of [1, -1])
    for (let first = 0; first < count; first++) {
      const order = new Array<number>(count).fill(0);
      turn.forEach((cylinder, i) => (order[cylinder - 1] = (((first + way * i) % count) + count) % count));
      if (!orders.some((known) => known.every((slot, i) => slot === order[i]))) orders.push(order);
    }
  return orders;
}
