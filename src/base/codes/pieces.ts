import type { Page } from './page.js';

export const piecesPages = {
  'pieces/bug': {
    exit: 1,
    title: 'A fault of the program itself',
    text: 'The program reached a state that its author thought impossible while dividing the primaries into pieces. Nothing was written. Please report it with the job and rack files.',
  },
  'pieces/clr-not-on-rack': {
    exit: 3,
    title: 'A bend has a radius that is not on the rack',
    text: 'Every bend of a primary is sawn from a stock bend, so its centre-line radius must be one that the rack holds. A stock bend may be entered by its measured radius. Route with the radii of the rack, or add the bend to it.',
  },
  'pieces/angle-over-stock': {
    exit: 3,
    title: 'A bend turns further than any stock bend',
    text: 'A bend over the largest stock angle must be welded from parts inside its arc, where the tube is oval and the inside is hard to reach. Either that was switched off, or the parts would be too short to hold while they are sawn. Allow it, route the bend as two, or put a larger stock bend with legs on the rack.',
  },
  'pieces/half-turn': {
    exit: 2,
    title: 'A bend of half a turn or more',
    text: 'The straights before and behind such a bend never meet ahead of it, so no bend table can hold it. Route it as two bends.',
  },
  'pieces/arc-too-short': {
    exit: 3,
    title: 'A bend is too short on its inside to be a piece',
    text: 'Between its two welds a bend piece must keep some wall at the inside of the bend, or the welds run together and it cannot be held while it is sawn and fitted. A leg on one side counts. Give it a straight beside it, a larger angle, or a larger radius. Common practice: 12 mm.',
  },
  'pieces/sliver': {
    exit: 3,
    title: 'A straight is too short to be made',
    text: 'A straight between two bends is made from their legs or from an insert. Where the stock has no legs for it and the straight is shorter than the least insert, nothing can be welded in. Lengthen it, or make it 0 so that the arcs meet. At the flange the length of an oblique insert is that of its short side. Common practice: 20 mm.',
  },
  'pieces/cut-into-bend': {
    exit: 3,
    title: 'The oblique cut at the flange would run into the first bend',
    text: 'A tube that leaves the flange leaning is cut oblique there. On its short side the cut reaches half the diameter times the tangent of the lean along the tube, and so far the tube must be straight: in the arc behind it is oval and leaves its axis, and the cut would not lie flat on the plate. Give it a longer first straight.',
  },
  'pieces/no-weld-spot': {
    exit: 3,
    title: 'There is no place where a weld is allowed',
    text: 'Welds stay out of slip joints, out of the room of wrenches, and away from keep-outs and cradles that stand fixed. Here all the places that legs and inserts can reach lie in such a zone. The message names those that are to blame, where they begin and end along the tube from the flange, the key each comes from, and the least that would free the primary. Move the zone or the bend, or take stock with a longer leg. `shop.weld_off_wrench` says how far a weld keeps off the room of a wrench: what the bead stands proud.',
  },
  'pieces/too-long': {
    exit: 3,
    title: 'A straight is longer than the stock for it',
    text: 'The legs of the bends do not cover the straight, and the rack holds no stick from which an insert could be sawn.',
  },
  'pieces/slip-too-short': {
    exit: 3,
    title: 'The last straight is shorter than the slip joint',
    text: "A slip joint's sleeve goes over straight round tube only. A last straight shorter than the sleeve is deep brings the bend into it, and the joint neither goes together nor comes apart.",
  },
  'pieces/stock-used-up': {
    exit: 3,
    title: 'The rack has not enough of something',
    text: 'Every way to make the primaries uses more of a limited item than the rack holds. The message names what to buy.',
  },
  'pieces/as-cut': {
    exit: 2,
    title: 'A correction at the bench does not fit the cut list',
    text: 'Under as_cut stand pieces of the cut list as they came out: `good` (cut as planned and tacked on), `scrap`, or what they measure now: angle, leg_up and leg_down of a bend, length of a straight. The names are those of the cut list without corrections, so leave the rack and the routes as they were when it was made. Only a measure that the piece has can be entered.',
  },
  'pieces/as-cut-misses': {
    exit: 2,
    title: 'A primary with a piece that came out otherwise misses its slot',
    text: 'With the measures under as_cut the tube was marched anew. The message says by how much it would miss its slot, and what to do with the pieces that are not cut or tacked yet: other lengths (never more than their own stock has left) and other turns, which the cut list holds now. A piece that is `good` is not touched; one that is entered with its measures is turned but not cut. Solids, cradles, clearances and the bend table are those of the tube as it will be: what it comes too near to, welds that come to stand where none may, and cradles that no longer hold it are told one by one. Where it stays more than 1 mm or 0.5 deg off (common practice, no source), let the router find a new tail behind what stands (`primaries.built`), and take the pieces of that primary out of as_cut: those of the tail bear the same names.',
  },
  'pieces/as-cut-other-plan': {
    exit: 2,
    title: 'A correction was measured on a piece of another plan',
    text: 'The cut list in the export folder has a piece of this name with other measures than the plan made now: the rack, the routes or a price changed since it was sawn. Worked into the new plan the correction would mean nothing. Put rack and routes back as they were. Where they had to change, tell what stands under primaries.built, plan the rest anew, and take the corrections out.',
  },
  'pieces/as-cut-idle': {
    exit: 2,
    title: 'There is no cut list for the corrections to be worked into',
    text: 'as_cut speaks of pieces of a cut list, and the job has no routes or no rack, so there is none. Nothing was corrected.',
  },
  'pieces/weld-amiss': {
    exit: 2,
    title: 'A weld comes to stand where none may',
    text: 'Welds are planned out of the room of wrenches and from under cradles that stand fixed. A piece that came out longer or shorter moves the weld behind it. Grind the bead flush there, or saw the piece anew.',
  },
  'pieces/not-proved': {
    exit: 3,
    title: 'A cheaper plan may exist',
    text: 'The plan is whole and its welds are the fewest possible, but the search for the cheapest stock ended before it could prove that nothing is cheaper. The message says how much cheaper a plan could be at the very most.',
  },
} as const satisfies Record<string, Page>;
