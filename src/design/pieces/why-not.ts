import { degrees, tidy } from '../../base/numbers.js';
import type { Problem } from '../../base/problems.js';
import { tolerance } from '../../base/tolerance.js';
import { bendWays } from './bend-ways.js';
import { courseOf, type PrimaryToCut } from './primary.js';
import { insideArc, stockOf, type CuttingRules } from './rules.js';
import { waysOf } from './ways.js';
import { noSpotTold } from './why-no-spot.js';

type Told = Omit<Problem, 'severity' | 'place'>;

const mm = (length: number): string => `${tidy(length, 1)} mm`;
const deg = (angle: number): string => `${tidy(degrees(angle), 2)} deg`;

/** What can be told from the rows of a primary before anything is cut. */
export function rowFaults(primary: PrimaryToCut, rules: CuttingRules): readonly Problem[] {
  const { id, rows, slip } = primary;
  const problems: Problem[] = [];
  const refuse = (row: number, told: Told): void => {
    problems.push({ severity: 'error', ...told, place: { path: `${primary.path}.${row}` } });
  };
  const clrs = [...new Set(rules.bends.map(({ clr }) => clr))].sort((a, b) => a - b);
  rows.forEach((row, index) => {
    if ('straight' in row) return;
    const { clr, angle } = row;
    if (angle > Math.PI - tolerance.sameDirection) {
      return refuse(index, {
        code: 'pieces/half-turn',
        what: `a bend of ${id} turns ${deg(angle)}; it must stay under 180 deg`,
        why: 'its two straights never meet ahead of it, so it stands in no bend table and cannot be laid out',
        fix: `make it two bends of ${deg(angle / 2)} each, with or without a straight between`,
      });
    }
    const stock = stockOf(rules, clr);
    if (stock.length === 0) {
      const near = [...clrs].sort((a, b) => Math.abs(a - clr) - Math.abs(b - clr))[0];
      return refuse(index, {
        code: 'pieces/clr-not-on-rack',
        what: `a bend of ${id} has CLR ${mm(clr)}; the rack has ${clrs.length === 0 ? 'no bends' : clrs.map((one) => tidy(one, 2)).join(', ')}`,
        why: 'there is nothing to saw it from',
        fix:
          near === undefined
            ? 'add 1 bend to the rack'
            : `route it with CLR ${tidy(near, 2)}, or add a bend of CLR ${tidy(clr, 2)} to the rack`,
      });
    }
    const largest = Math.max(...stock.map(({ angle: own }) => own));
    if (!rules.splitInArc && angle > largest + WHOLE && !stock.some(({ room }) => room >= angle))
      refuse(index, {
        code: 'pieces/angle-over-stock',
        what: `a bend of ${id} turns ${deg(angle)}; the largest stock bend of CLR ${tidy(clr, 2)} turns ${deg(largest)}, and welding inside an arc is switched off`,
        why: 'no one piece of stock turns so far',
        fix: `allow a weld inside the arc, or take ${deg(angle - largest)} off this bend`,
      });
  });
  const [first] = rows;
  const { oblique } = primary;
  // A straight tube without bends is an insert, and told as one.
  if (first && 'straight' in first && rows.length > 1 && first.straight < oblique - tolerance.samePoint)
    refuse(0, {
      code: 'pieces/cut-into-bend',
      what: `the first straight of ${id} is ${mm(first.straight)}; its oblique cut at the flange reaches ${mm(oblique)} along the short side`,
      why: 'the saw would run into the arc, where the tube is oval and leaves its axis: it would stand open on the flange',
      fix: `make it ${mm(roundedUp(oblique - first.straight))} longer`,
    });
  const last = rows.at(-1);
  if (slip > 0 && last && 'straight' in last && last.straight < slip - tolerance.samePoint)
    refuse(rows.length - 1, {
      code: 'pieces/slip-too-short',
      what: `the last straight of ${id} is ${mm(last.straight)}; the slip joint is ${mm(slip)} deep`,
      why: 'the bend would stand inside the sleeve, which goes over straight tube only',
      fix: `make it ${mm(slip - last.straight)} longer, or the slip joint as much less deep`,
    });
  return problems;
}

/** A stock bend serves whole within this. */
const WHOLE = 0.05 * (Math.PI / 180);

/** To 0.1 mm, never less than it. */
const roundedUp = (length: number): number => Math.ceil(length * 10 - tolerance.samePoint) / 10;

/** Longer than any straight of a header. */
const ANY_LENGTH = 1e5;

/**
 * Why a primary has no way to be cut: which of the limits, if it fell, would let it be made. Tried one by
 * one, so that the first told is the smallest change.
 * @param stuckAt the straight that no way gets past
 */
export function whyNot(primary: PrimaryToCut, rules: CuttingRules, stuckAt: number): Problem {
  const course = courseOf(primary, rules);
  const straight = course.straights[stuckAt];
  const length = straight?.length ?? 0;
  const at = straight?.row ?? 0;
  // Of the first straight the job has what is beyond the flange; an insert there is that much longer on its axis.
  const oblique = stuckAt === 0 ? primary.oblique : 0;
  const own = length - (stuckAt === 0 ? primary.intoFlange + oblique : 0);
  const leastInsert = rules.leastInsert + oblique;
  // Past this straight: what stands in the way behind it is told next.
  const goes = (other: Partial<CuttingRules>, zones = primary.noWeld): boolean =>
    (waysOf({ ...primary, noWeld: zones }, { ...rules, ...other }).stuckAt ?? Infinity) > stuckAt;
  // Where stretches without welds stand in the way as well, they are told next.
  const eased = (other: Partial<CuttingRules>): boolean => goes(other) || goes(other, []);
  const refuse = (told: Told, row = at): Problem => ({
    severity: 'error',
    ...told,
    place: { path: `${primary.path}.${row}` },
  });

  if (primary.noWeld.length > 0 && goes({}, [])) return refuse(noSpotTold(primary, rules, straight, own));
  const bend = [stuckAt, stuckAt - 1]
    .map((i) => course.bends[i])
    .find((one) => one && insideArc(one.clr, rules.od, one.angle) < rules.leastInsideArc);
  if (bend && eased({ leastInsideArc: 0 })) {
    const inside = insideArc(bend.clr, rules.od, bend.angle);
    const lacking = rules.leastInsideArc - inside;
    const i = course.bends.indexOf(bend);
    const beside = Math.max(...[i, i + 1].map((k) => course.straights[k]?.length ?? 0));
    const more = lacking / (bend.clr - rules.od / 2);
    const turnable = stockOf(rules, bend.clr).some(({ room }) => room >= bend.angle + more);
    const straighter = `give it ${mm(lacking)} of straight beside it`;
    const longerLeg = `put a bend of CLR ${tidy(bend.clr, 2)} with a leg of ${mm(lacking + rules.saw.rawTrim)} on the rack`;
    const turned = `${deg(more)} more angle`;
    return refuse(
      {
        code: 'pieces/arc-too-short',
        what: `a bend of ${primary.id} turns ${deg(bend.angle)}: it has ${mm(inside)} at its inside, where a piece needs ${mm(rules.leastInsideArc)} with its leg, and no leg can be kept`,
        why: 'its two welds run together at the inside, and it cannot be held while it is sawn',
        fix: [...(beside < lacking ? [straighter] : [longerLeg]), ...(turnable ? [turned] : [])].join(
          ', or ',
        ),
      },
      bend.row,
    );
  }
  const over = course.bends[stuckAt];
  if (over && bendWays(over, rules, []).length === 0) {
    const stock = stockOf(rules, over.clr);
    return refuse(
      {
        code: 'pieces/angle-over-stock',
        what: `a bend of ${primary.id} turns ${deg(over.angle)}; the stock of CLR ${tidy(over.clr, 2)} gives ${deg(Math.max(0, ...stock.map(({ room }) => room)))} at the most, and welded from parts each would have less than ${mm(rules.leastInsideArc)} at its inside`,
        why: 'so short a part cannot be held while it is sawn, and its two welds run together',
        fix: `put a bend of CLR ${tidy(over.clr, 2)} of ${deg(over.angle)} or more, with legs, on the rack`,
      },
      over.row,
    );
  }
  if (eased({ leastInsert: Math.max(tolerance.shop, Math.min(own - oblique, rules.leastInsert)) })) {
    const onShortSide = oblique > 0 ? ` at the flange (${mm(rules.leastInsert)} on its short side)` : '';
    const orNone = oblique > 0 ? '' : ' or 0';
    return refuse({
      code: 'pieces/sliver',
      what: `a straight of ${primary.id} is ${mm(own)}; no leg of the stock covers it, and the least insert${onShortSide} is ${mm(leastInsert)}`,
      why: 'so short a ring cannot be held while it is sawn, and its two welds run together',
      fix: `make it ${mm(roundedUp(leastInsert - own))} longer${orNone}, or put stock with legs of ${mm(length + rules.saw.rawTrim)} on the rack`,
    });
  }
  if (eased({ longestInsert: ANY_LENGTH }))
    return refuse({
      code: 'pieces/too-long',
      what: `a straight of ${primary.id} is ${mm(own)}; the legs of the stock do not cover it, and the longest insert from the rack's sticks is ${mm(rules.longestInsert)}`,
      why: 'there is nothing to saw the insert from',
      fix: `put a straight of ${mm(Math.ceil(length) + 2 * rules.saw.rawTrim)} on the rack`,
    });
  return refuse({
    code: 'pieces/sliver',
    what: `${primary.id} cannot be made past its straight of ${mm(own)}`,
    why: 'the legs of the stock and the least insert leave no way to divide the tube there',
    fix: `make this straight at least ${mm(leastInsert)}`,
  });
}
