import { add, cross3, direction, scale, subtract, turnedAbout } from '../../src/base/vectors.js';
import type { CradlePart } from '../../src/design/parts.js';
import { tubeSolid, type Kernel, type Solid } from '../../src/solid/index.js';
import { saddleOf } from '../../src/solid/saddle.js';

/** The tube as it lies in a cradle, a full bar that stands out of the block at both ends. */
export function tubeIn(kernel: Kernel, part: CradlePart): Solid {
  const { at, along, bend, reach } = saddleOf(part);
  const name = `tube in ${part.name}`;
  const half = reach + 15;
  if (!bend) {
    const [from, to] = [subtract(at, scale(along, half)), add(at, scale(along, half))];
    return tubeSolid(kernel, {
      name,
      pieces: [{ kind: 'straight', from, to }],
      od: part.od,
      wall: undefined,
    });
  }
  const { centre, axis, clr } = bend;
  const arm = subtract(at, centre);
  const place = (turn: number) => add(centre, turnedAbout(arm, axis, turn));
  const turn = half / clr;
  const [from, to] = [place(-turn), place(turn)];
  const flow = direction(cross3(axis, arm));
  if (flow[0] < 0) throw new Error('the flow runs along +x');
  return tubeSolid(kernel, {
    name,
    pieces: [{ kind: 'bend', from, to, centre, axis, clr, angle: 2 * turn }],
    od: part.od,
    wall: undefined,
  });
}
