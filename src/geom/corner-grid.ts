/** What the nearest corner of a grid says about a point. mm. */
export interface Looked {
  /** The value at the corner. */
  corner: number;
  /** From the corner to the point. */
  away: number;
  /** The value at the point is at least this, where it changes by no more than the way moved. */
  least: number;
}

/** Corners along one edge of a block of them. */
const EDGE = 16;
/** Blocks are told apart up to this many either way of the origin. */
const HALF = 2 ** 16;

/**
 * Values at the corners of a grid through the origin, each found when it is first asked for. The answer is
 * handed back in one and the same object each time.
 */
export function cornersFilledOnce(
  pitch: number,
  valueAt: (x: number, y: number, z: number) => number,
): (x: number, y: number, z: number) => Looked {
  const blocks = new Map<number, Float64Array>();
  const looked: Looked = { corner: 0, away: 0, least: 0 };
  let lastKey = NaN;
  let last: Float64Array = new Float64Array(0);
  return (x, y, z) => {
    const [i, j, k] = [Math.round(x / pitch), Math.round(y / pitch), Math.round(z / pitch)];
    const [bi, bj, bk] = [Math.floor(i / EDGE), Math.floor(j / EDGE), Math.floor(k / EDGE)];
    const key = ((bi + HALF) * 2 * HALF + (bj + HALF)) * 2 * HALF + (bk + HALF);
    if (key !== lastKey) {
      let block = blocks.get(key);
      if (block === undefined) {
        block = new Float64Array(EDGE ** 3).fill(NaN);
        blocks.set(key, block);
      }
      lastKey = key;
      last = block;
    }
    const at = ((i - bi * EDGE) * EDGE + (j - bj * EDGE)) * EDGE + (k - bk * EDGE);
    let corner = last[at] as number;
    if (Number.isNaN(corner)) {
      corner = valueAt(i * pitch, j * pitch, k * pitch);
      last[at] = corner;
    }
    const [dx, dy, dz] = [x - i * pitch, y - j * pitch, z - k * pitch];
    looked.corner = corner;
    looked.away = Math.sqrt(dx * dx + dy * dy + dz * dz);
    looked.least = corner - looked.away;
    return looked;
  };
}
