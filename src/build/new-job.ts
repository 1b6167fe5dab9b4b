/** What a first job is made for. */
export interface NewJob {
  readonly name: string;
  readonly cylinders: number;
  readonly units: 'mm' | 'in';
}

/**
 * A first job file to be edited: a complete flange (and merge plate, for more than one cylinder) of our own
 * invention, every line with a word on how to measure it. It passes `check` as it is. What a search for tubes needs
 * beyond that stands there as remarks, to be uncommented.
 * @param schema where the JSON Schema lies, for editors that complete and check while one types
 */
export function newJobText({ name, cylinders, units }: NewJob, schema: string): string {
  const inch = units === 'in';
  const v = (mm: string, inches: string): string => (inch ? inches : mm);
  const ports = Array.from({ length: cylinders }, (_, i) => `P${i + 1}`);
  const merge =
    cylinders < 2
      ? ''
      : `
collector:
  kind: merge
  joint: slip                   # the tubes slide into sleeves; or welded
  at: { right: ${v('150', '6')}, up: ${v('-400', '-16')}, out: ${v('180', '7')} }   # on its axis, level with the tubes' ends
  flow: { right: 0.2, up: -1, out: 0.15 }         # which way the gas leaves it
merge_plate:
  thickness: ${v('6', '1/4')}
  outline: hugging              # or round

# The tubes: take away the # that stands before a word below, put your numbers in, then run: tackwright route ${name}/job.yaml
# Beside this file lies the rack: correct it first to the bends and straights that you can get.
#rack: rack.yaml
#length: { between: [${v('630, 780', '25, 31')}], spread: ${v('2', '0.1')} }   # of every primary, flange to collector; spread: how far they may differ
# What the tubes must not touch: measure two opposite corners of a box, each [right, up, out] from the centre of port 1.
#keep_outs:
#  - name: cylinder head        # behind the face, above and below the ports
#    kind: head
#    clear: ${v('8', '0.35')}
#    head_of: [${ports.join(', ')}]   # these tubes start on it
#    box: { from: [${v('-70, -60, -200', '-2.8, -2.4, -8')}], to: [${v(String(70 + 92 * (cylinders - 1)), (2.8 + 3.6 * (cylinders - 1)).toFixed(1))}, ${v('100', '4')}, 0] }
# More of them the same way: steering shaft, starter, frame, ground. Nothing is kept clear of what is not written here.
`;
  return `# yaml-language-server: $schema=${schema}
# ${name}: change the numbers to yours, then run: tackwright check ${name}/job.yaml
# Measure off the head: stand looking at the exhaust face. right and up run along the face, out comes toward you.
# Everything counts from the centre of port 1. Bare numbers are ${inch ? 'inches' : 'mm'}; any value may say its own unit: 94mm, "3-5/8 in".
job: ${name}
units: ${units}
engine: { cylinders: ${cylinders} }
ports:
  shape: { rounded_rectangle: { width: ${v('36', '1.4')}, height: ${v('32', '1.25')}, corner: ${v('12', '0.45')} } }
  row: { count: ${cylinders}, pitch: ${v('92', '3.6')} }   # pitch: centre of one port to centre of the next
  leaving: { down: 12 }         # degrees off square to the face
studs:
  thread: ${v('M8', '5/16')}    # the clearance hole follows from it
  beside_each_port: [[${v('-33, 18', '-1.3, 0.7')}], [${v('33, -18', '1.3, -0.7')}]]   # right and up from each port's centre
flange:
  thickness: ${v('10', '3/8')}
  material: "304"
  cut_by: plasma                # or laser, waterjet, saw and drill
  web: { height: ${v('30', '1.2')} }           # the bar that ties the ports together
tube: { od: ${v('42.4', '1-5/8')}, wall: ${v('1.6', '16 ga')}, material: "304" }
primaries:
  joint_at_flange: butt         # or through, or { socket: { depth: ${v('4', '5/32')} } }
${merge}`;
}

/** A first rack file: what bends and straights can be had. Prices are invented. */
export function newRackText({ units }: NewJob): string {
  const inch = units === 'in';
  return `units: ${units}
tube: { od: ${inch ? '1-5/8' : '42.4'}, wall: ${inch ? '16 ga' : '1.6'}, material: "304" }
saw: { kerf: ${inch ? '0.08' : '2'}, dress: ${inch ? '0.02' : '0.5'}, raw_trim: ${inch ? '0.12' : '3'} }
bends:
  - { clr: ${inch ? '2.5' : '63.6'}, angle: 180, legs: [${inch ? '5, 5' : '100, 100'}], price: 17, quantity: unlimited }
straights:
  - { length: ${inch ? '40' : '1000'}, price: 18, quantity: unlimited }
offcuts: []
`;
}
