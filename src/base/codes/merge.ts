import type { Page } from './page.js';

export const mergePages = {
  'merge/missing-section': {
    exit: 2,
    title: 'The job lacks what a merge plate is made from',
    text: 'A merge plate needs the ports (as many as tubes), the tube, the collector (its gap, lean and clocking place the holes) and a merge_plate section, which may be as short as `merge_plate: { thickness: 6 }`.',
  },
  'merge/count': {
    exit: 2,
    title: 'A merge plate for too few or too many tubes',
    text: 'A merge plate is made for 2 to 8 tubes in one ring. A single tube needs none; more than 8 leave a hollow in the middle wider than the tubes, and are better merged in two stages.',
  },
  'merge/lean': {
    exit: 2,
    title: 'The tubes lean too far for a flat plate',
    text: 'Through a flat plate a leaning tube needs a hole longer than wide by t tan a. Beyond 30 degrees the holes run into each other and the edge of the cut no longer lies along the tube; bend the tubes before the collector instead.',
  },
  'merge/thin-web': {
    exit: 2,
    title: 'Too little metal between two edges of the merge plate',
    text: 'Between two holes, or a hole and the outline, there must be enough metal for the process that cuts it and for the weld beside it. A thin bridge burns away on the table, and one between two welded tubes cracks. The gap between tubes at the slots sets the bridge between their holes: `collector.slot_gap`.',
  },
  'merge/thin-neck': {
    exit: 2,
    title: 'The merge plate is too narrow somewhere',
    text: 'The outline pinches the plate to less than the least web. A narrow neck bends in handling and burns away on the table. A larger edge or fillet widens it.',
  },
  'merge/in-pieces': {
    exit: 2,
    title: 'The merge plate would fall into several pieces',
    text: 'The metal round the holes does not join up. Give the holes a larger edge, or bring the bolts nearer.',
  },
  'merge/star-and-centre': {
    exit: 2,
    title: 'Star hole and centre tube in one place',
    text: 'A hole in the star between the tubes and a tube in the middle of the ring both stand on the axis of the collector. Keep one of them.',
  },
  'merge/in-sleeves': {
    exit: 2,
    title: 'The merge plate stands inside the sleeves',
    text: 'The sleeves of slip joints reach back over the tubes by the slip depth. A plate whose holes fit the tubes can stand at their mouth (the sleeves are then welded to it) or upstream of it, not between.',
  },
  'merge/tube-short': {
    exit: 2,
    title: "The tubes end before they fill the plate's holes",
    text: 'The plate stands so far downstream that the ends of the tubes do not come into its holes all round. The weld would have to bridge the gap. Stand the plate further upstream, at least by its thickness.',
  },
  'merge/tight-hole': {
    exit: 2,
    title: 'A tube at the top of its tolerance will not enter its hole',
    text: 'Tubes are sold by their nominal diameter; the usual class D3 allows 0.75 % or at least 0.3 mm more. Measure the tube and put the measured diameter in the job, or take a larger gap.',
  },
  'merge/no-room-for-tool': {
    exit: 2,
    title: 'A bolt of the ring cannot be turned',
    text: 'Round each bolt there must be room for the socket that turns it. Where a tube stands in that circle the plate can be made but never bolted up. Use a larger bolt circle.',
  },
  'merge/no-room-for-mark': {
    exit: 2,
    title: 'A mark was left out',
    text: 'There is no free metal for one of the etched marks clear of holes and edges, at a size that the process can draw. Mark the part by hand as it comes off the table, on the side that lay up.',
  },
} as const satisfies Record<string, Page>;
