import type { Page } from './page.js';

const caution =
  'The figures are common practice of the trade; local rules and the maker of the vehicle decide.';

export const jobPages = {
  // The file as such.
  'job/empty': {
    exit: 2,
    title: 'The job file is empty',
    text: 'There is nothing to read: no key stands in the file. A job begins with its name and unit, then its ports. `tackwright new` writes one to start from.',
  },
  'job/too-large': {
    exit: 2,
    title: 'The job file is too large',
    text: 'A job is a page or two of text; more than a megabyte is something else, such as a mesh. Name a mesh as a keep-out (mesh: head.stl) instead of pasting it in.',
  },
  'job/not-text': {
    exit: 2,
    title: 'The job file is not plain text',
    text: 'The file holds bytes that no text has. Save it as plain text, UTF-8, not as a document of a word processor.',
  },
  'job/syntax': {
    exit: 2,
    title: 'The job file cannot be read as YAML',
    text: 'A bracket, quote, colon or indent is not where it must be, so nobody can tell which value belongs to which key. The place given is where reading stopped; the slip is often on the line before it.',
  },
  'job/tab': {
    exit: 2,
    title: 'A tab stands where spaces must',
    text: 'A tab is as wide as the editor likes, so the depth of a line that starts with one cannot be told. Indent with spaces, two for each step.',
  },
  'job/duplicate-key': {
    exit: 2,
    title: 'A key stands twice',
    text: 'The same key is given twice in one section and only one of the values can hold. Which one would be cut is a matter of luck, so the job is refused until one is taken out.',
  },
  'job/same-name': {
    exit: 2,
    title: 'Two things have one name',
    text: 'What comes near to a keep-out, stands in the way of a wrench or holds a primary up is told by its name. Two of one name cannot be told apart: call one of them otherwise.',
  },
  'job/several-documents': {
    exit: 2,
    title: 'Several documents in one file',
    text: 'A line of three dashes ends one YAML document and begins the next. A job file holds one job: give each header its own file.',
  },
  'job/aliases': {
    exit: 2,
    title: 'Too many or broken references',
    text: 'A value written once (&name) may be used again (*name), but a reference must stand after what it names, and references may not unfold into thousands of values.',
  },
  'job/not-a-mapping': {
    exit: 2,
    title: 'The file is not a list of keys and values',
    text: 'A job is made of keys with values, such as `units: mm`. A bare list or a line of text says nothing about which part it means.',
  },
  // Keys and values.
  'job/unknown-key': {
    exit: 2,
    title: 'A key that no job has',
    text: 'A misspelt key would be passed over in silence and a default cut in its place; so every unknown key is an error. The message names the nearest known key where there is one.',
  },
  'job/missing-key': {
    exit: 2,
    title: 'A key that must be given is missing',
    text: 'There is no sensible default for this value: it must be measured or decided. Mark it `{ value: 92, how: guessed }` if it is only a guess for now.',
  },
  'job/wrong-type': {
    exit: 2,
    title: 'A value of the wrong kind',
    text: 'A list stands where a number is asked for, or a number where a section is, and the like. The message shows how the value is written.',
  },
  'job/unknown-word': {
    exit: 2,
    title: 'A word that is not one of the choices',
    text: 'This key takes one of a few words. The message lists them.',
  },
  'job/wrong-count': {
    exit: 2,
    title: 'Too many or too few values in a list',
    text: 'A place has two or three numbers, a box two corners, a printer bed three sides. One more or one less and it is not known which was meant.',
  },
  'job/not-a-number': {
    exit: 2,
    title: 'A number that cannot be read',
    text: 'Numbers are written 92, 94 mm, 1-5/8 in, 1 5/8", 0.065 in, 3.5 cm, 12 deg. A fraction that is more than a whole (15/8) is refused, because a lost space turns 1 5/8 into it.',
  },
  'job/decimal-comma': {
    exit: 2,
    title: 'A comma in a number',
    text: 'In YAML a comma parts the members of a list; the decimal sign is a point. 42,4 must be written 42.4.',
  },
  'job/unit': {
    exit: 2,
    title: 'A unit that does not fit',
    text: 'Lengths are in mm, cm, m or in; angles in deg or rad; capacity in cc, l or ci; engine speed in rpm. A bare number is in the unit the job states at `units` (angles: degrees).',
  },
  'job/gauge': {
    exit: 2,
    title: 'A gauge where none can be read',
    text: 'Tube walls may be given in BWG, 10 to 20 gauge (16 ga: 1.651 mm). Sheet and plate gauges differ by material (16 gauge: 1.52 mm in steel, 1.59 mm in stainless), so a plate is given by its measured thickness.',
  },
  'job/not-finite': {
    exit: 2,
    title: 'A number that is no size',
    text: 'Not-a-number and infinity come from a spreadsheet that went wrong. Measure the value and write it.',
  },
  'job/out-of-range': {
    exit: 2,
    title: 'A value outside its range',
    text: 'The value lies outside what can be made or what makes sense for a header. Most often a decimal point or a unit was lost.',
  },
  'job/contradiction': {
    exit: 2,
    title: 'Two keys that say the same thing twice',
    text: 'Two ways of giving one value stand side by side, and nothing says which of them holds. Take one out.',
  },
  'job/guess': {
    exit: 2,
    title: 'A measured or guessed value written wrongly',
    text: 'Any value may say how it was come by: { value: 92, how: measured } or { value: 92, how: guessed }. Nothing else stands in these brackets.',
  },
  'job/set': {
    exit: 2,
    title: 'A --set that cannot be used',
    text: 'A value is set from the command line as path=value: --set ports.row.pitch=94mm, --set studs.at.0=[-33,20]. The path is that of the key in the job file; members of lists count from 0.',
  },
  'job/name': {
    exit: 2,
    title: 'A job name that no folder can have',
    text: 'The name of the job becomes the name of a folder. It is made of letters, digits, dots, dashes and underscores, begins with a letter or digit and is at most 60 long.',
  },
  'job/section-missing': {
    exit: 2,
    title: 'A section needs another that is not there',
    text: 'A flange needs ports, a merge plate needs tube and collector, cradles need a tube. The section alone has nothing to stand on.',
  },
  // Ports and studs.
  'job/shape': {
    exit: 2,
    title: 'A port shape that cannot be drawn',
    text: 'The measures of the port contradict each other: a corner larger than half the side, an obround longer across than along, a D whose round side does not fit.',
  },
  'job/face': {
    exit: 2,
    title: 'A port and its face do not fit together',
    text: 'The gas must leave the head: its direction may lean at most 75 degrees from square off the face. `up` must not run along the face normal. Ports of one flange stand on one plane.',
  },
  'job/zero-direction': {
    exit: 2,
    title: 'A direction of no length',
    text: 'A direction is given by three numbers that are not all zero; only their proportion counts.',
  },
  'job/ports-overlap': {
    exit: 2,
    title: 'Port openings run into each other',
    text: 'Two openings in the head overlap at the pitch given, so one of pitch, place and shape is wrong. Measure the pitch edge to edge of two ports (left edge to left edge): it is the same as centre to centre.',
  },
  'job/tubes-overlap': {
    exit: 2,
    title: 'Tubes run into each other at the flange',
    text: 'The ports stand closer together than the tube is thick, so two primaries would have to stand in one place. Take a smaller tube or check the pitch.',
  },
  'job/studs-overlap': {
    exit: 2,
    title: 'Stud holes run into each other',
    text: 'Two stud holes overlap: one is given twice, or ports that share a stud each give it with beside_each_port. Give shared studs once, with studs.at.',
  },
  'job/stud-in-port': {
    exit: 2,
    title: 'A stud hole runs into a port opening',
    text: 'The gasket cannot seal where a hole breaks into the port. Check the sign of its place (right and up are positive) and from where it was measured.',
  },
  'job/stud-hole': {
    exit: 2,
    title: 'Stud thread and hole do not fit together',
    text: 'The hole is found from the thread (ISO 273, ASME B18.2.8) or given, and must be larger than the thread. Give at least one of them.',
  },
  'job/engine': {
    exit: 2,
    title: 'The engine contradicts itself',
    text: 'The firing order names every cylinder once, and a header has no more ports than the engine has cylinders.',
  },
  // Tube, primaries, collector.
  'job/wall': {
    exit: 2,
    title: 'A tube wall that leaves no bore',
    text: 'The wall must be less than half the outside diameter. Often a diameter was put for a wall, or inches for millimetres.',
  },
  'job/no-such-primary': {
    exit: 2,
    title: 'A primary that the job does not have',
    text: 'Primaries are named P1, P2, ... as their ports, in order. The name given belongs to none of them.',
  },
  'job/route-rows': {
    exit: 2,
    title: 'A route by hand with rows out of order',
    text: 'A route is made of straights and bends in turn and begins and ends with a straight: { straight: 40 }, { clr: 63.6, angle: 90, clock: 0 }, { straight: 100 }. A straight of 0 is allowed between two bends.',
  },
  'job/joint': {
    exit: 2,
    title: 'A joint at the flange that the plate cannot hold',
    text: 'The floor of a socket and the recess of a tube set through must lie inside the thickness of the plate.',
  },
  'job/slip': {
    exit: 2,
    title: 'The last straight is shorter than the slip joint',
    text: 'A sleeve slides on a straight tube only. The last straight must be at least the slip depth, and 15 mm more so that the collector can be drawn off without meeting the bend.',
  },
  'job/sleeves': {
    exit: 2,
    title: 'The sleeves of the slip joints run into each other',
    text: 'Between two tubes at the slots stand two sleeve walls and their gaps. The slot gap must hold them, with 1 mm to spare.',
  },
  'job/slots': {
    exit: 2,
    title: 'A list of slots that does not fit the ports',
    text: 'The list names one slot for each primary, S1 to Sn, each once, in the order of the primaries.',
  },
  'job/length': {
    exit: 2,
    title: 'A length that no primary can have',
    text: 'The longest length must not be less than the least, and a primary is never shorter than its first and last straight together.',
  },
  'job/keep-out': {
    exit: 2,
    title: 'A keep-out without a body',
    text: 'A box needs two corners apart from each other, a cylinder or capsule two ends apart, a plane a normal. Only a mesh or a STEP file brings its own shape.',
  },
  'job/bolt-ring': {
    exit: 2,
    title: 'A bolt ring without holes',
    text: 'A bolt ring needs the thread of its bolts, or the diameter of their holes.',
  },
  // Legal, but unwise.
  'job/thin-flange': {
    exit: 2,
    title: 'A thin flange warps',
    text: 'Weld shrinkage pulls a thin plate hollow between its studs and it leaks. 8 to 12 mm is usual for a header flange; thinner ones need a strongback and a skim afterwards. Common practice.',
  },
  'job/sharp-fillet': {
    exit: 2,
    title: 'A sharp inside corner',
    text: 'Cracks start in sharp inside corners of a plate that is heated and cooled thousands of times. 8 mm is usual, 5 mm the least. Common practice.',
  },
  'job/narrow-edge': {
    exit: 2,
    title: 'The plate ends inside the gasket land',
    text: 'The metal round an opening is narrower than the land left for the gasket, which then hangs over the edge and burns away.',
  },
  'job/short-straight': {
    exit: 2,
    title: 'A short straight',
    text: 'A short straight leaves no room for the torch, the nut or the saw. 30 mm is usual for the stub at the flange and 25 the least; a slip joint wants 15 mm beyond its depth. Common practice.',
  },
  'job/thin-wall': {
    exit: 2,
    title: 'A wall far from the usual',
    text: 'Header tube is usually 1.2 to 2.6 mm in the wall. Thinner burns through at the weld and cracks; thicker is heavy and hard to bend. Common practice.',
  },
  'job/small-clearance': {
    exit: 2,
    title: 'Less clearance than usual for this neighbour',
    text: `The clearance asked is less than is usual for what stands there. Heat ages hoses, lines, boots and wiring long before it burns them, and a leak of fuel or brake fluid on a hot pipe is a fire. ${caution}`,
  },
  'job/usual-clearance': {
    exit: 2,
    title: 'A usual clearance was taken for a neighbour',
    text: `No clearance was given for a keep-out, so a usual one for its kind was taken, with 10 mm more where it moves or is fixed to the body. ${caution}`,
  },
  'job/unknown-material': {
    exit: 2,
    title: 'A material that is not in the tables',
    text: 'Mass and growth are worked out from density and expansion; this name is in none of the tables, so those of 304 stand in. Known are 304, 321, 409 and mild steel, also by their EN numbers.',
  },
} as const satisfies Record<string, Page>;
