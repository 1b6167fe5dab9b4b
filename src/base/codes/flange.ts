import type { Page } from './page.js';

export const flangePages = {
  'flange/missing-section': {
    exit: 2,
    title: 'The job lacks what a flange is made from',
    text: 'A port flange needs the ports with their shape, the studs, and a flange section (which may be as short as `flange: { thickness: 10 }`). For the tube to be fitted it also needs the tube.',
  },
  'flange/in-pieces': {
    exit: 2,
    title: 'The flange would fall into several pieces',
    text: 'The metal round the ports and studs does not join up. The bar along the ports (`flange.web.height`) ties them together; studs far from any port need it to reach them. Or make one plate per port on purpose with `made_as: each`.',
  },
  'flange/plates-overlap': {
    exit: 2,
    title: 'Two flanges would lie on top of each other',
    text: 'Plates made one per port or in pairs need a gap between them on the head. Make them smaller (edge, boss), or make them in one piece.',
  },
  'flange/thin-web': {
    exit: 2,
    title: 'Too little metal between two edges',
    text: 'Between an opening, a hole and the outline there must be enough metal for the process that cuts it and for the weld beside it. Plasma burns a thin web away or pulls it out of place; a thin gasket land leaks.',
  },
  'flange/thin-neck': {
    exit: 2,
    title: 'The plate is too narrow somewhere',
    text: 'The outline pinches the plate to less than the least web. A narrow neck bends in handling and burns away on the table. Make the bar along the ports higher, the fillet larger, or move the stud that sticks out.',
  },
  'flange/tube-off-metal': {
    exit: 2,
    title: "The tube's end does not stand on metal all round",
    text: 'Where a tube is butted onto the flange its end must stand on metal all the way round, or the weld falls through the opening. Let the opening be the part common to port and bore (`opening: blend`, then grind it out), use the tube bore (`opening: bore`), set the tube through the plate, or take a larger tube.',
  },
  'flange/step-in-flow': {
    exit: 2,
    title: 'The plate stands in the flow',
    text: 'Part of the port is covered by the plate. The gas meets a step there. Grind the opening out to the port on the gasket side after welding, or choose another opening or tube.',
  },
  'flange/socket-too-deep': {
    exit: 2,
    title: 'A socket leaves no floor',
    text: 'A socket is a pocket for the end of the tube. At least 2 mm of plate must stay under it, or the tube has nothing to stand on.',
  },
  'flange/no-room-for-tool': {
    exit: 2,
    title: 'A nut or its tool meets the tube',
    text: 'Round each stud there must be room for the nut, and for the socket that turns it. Where the tube or its weld stands in that circle the header can be built but never bolted on.',
  },
  'flange/no-room-for-mark': {
    exit: 2,
    title: 'A mark was left out',
    text: 'There is no free metal for one of the etched marks clear of welds, holes and edges. Paint-mark the part by hand as it comes off the table. A flange fitted the wrong way round is scrap once the tubes are on.',
  },
  'flange/no-room-for-nick': {
    exit: 2,
    title: 'No room for the nick in the outline',
    text: 'The nick that shows which way round the plate goes needs enough metal behind it near the first port. Etch the plate instead, or give the ports more edge.',
  },
  'flange/relief-cuts-through': {
    exit: 2,
    title: 'A relief slot cuts too far',
    text: 'A relief slot between two ports must leave a bridge of metal at the top and may not run into a hole. Leave more, or make the slot narrower.',
  },
  'flange/lean-too-steep': {
    exit: 2,
    title: 'The tube leans too far to come through a plate',
    text: 'Beyond 45 degrees off square the hole grows very long and the weld cannot be reached in the corner under the tube. Measure the port again: `leaving` counts from square to the face.',
  },
  'flange/weak-strongback': {
    exit: 2,
    title: 'The strongback is too thin to hold the flange',
    text: 'A strongback must be clearly stiffer than the flange it holds flat; stiffness grows with the cube of thickness. Twice the flange or 20 mm is usual (common practice, no source).',
  },
} as const satisfies Record<string, Page>;
