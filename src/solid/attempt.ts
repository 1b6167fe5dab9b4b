import { Refusal } from '../base/problems.js';
import type { Kernel } from './kernel.js';

/** What is being made, for the words of a refusal. */
export interface Work {
  /** The part's name: `flange`, `cradle-P1-2`. */
  readonly part: string;
  /** `extruding the plate`, `cutting the saddle`. */
  readonly doing: string;
  /** The figures that matter: `thickness 10 mm, 4 openings`. */
  readonly sizes: string;
  /** The likely cure: the smallest change worth trying first. */
  readonly cure: string;
}

/** What the kernel's own exceptions mean, by the start of their type's name. */
const MEANINGS: readonly (readonly [string, string])[] = [
  ['StdFail_NotDone', 'the operation came to no result'],
  ['Standard_ConstructionError', 'these figures do not make a shape'],
  ['Standard_DomainError', 'a figure lies outside what the operation can take'],
  ['Standard_NullObject', 'nothing was left to work on'],
  ['Standard_NoSuchObject', 'a face or an edge that should be there is not'],
  ['Standard_OutOfRange', 'a list came out shorter than it should be'],
  ['Standard_NumericError', 'a division by nothing'],
  ['Standard_TypeMismatch', 'a face where an edge was due, or the like'],
  ['gp_VectorWithNullMagnitude', 'a direction of no length'],
  ['TopoDS_', 'the faces and edges do not fit together'],
  ['Geom', 'a curve or surface has no point or direction where one is needed'],
];

/**
 * Runs a piece of kernel work. The kernel throws WebAssembly exceptions, which are no Errors and carry
 * no text of their own: they become a refusal that names the part, the work, the sizes and the cure.
 * @throws Refusal `solid/kernel`; a refusal thrown inside, and a plain mistake of ours, pass through unchanged.
 */
export function attempt<T>(kernel: Kernel, work: Work, run: () => T): T {
  try {
    return run();
  } catch (thrown) {
    if (thrown instanceof Refusal || isOurBug(thrown)) throw thrown;
    throw refusalOf(work, reasonOf(kernel, thrown));
  }
}

/** A slip in the program, or a call that the kernel's door does not know: no fault of the part. */
const isOurBug = (thrown: unknown): boolean =>
  thrown instanceof TypeError ||
  thrown instanceof ReferenceError ||
  (thrown instanceof Error && thrown.name === 'BindingError');

function refusalOf(work: Work, reason: string): Refusal {
  return new Refusal([
    {
      code: 'solid/kernel',
      severity: 'error',
      what: `${work.part}: ${work.doing} failed (${work.sizes}): ${reason}`,
      why: 'there is no solid of this part, so no file of it was written',
      fix: work.cure,
    },
  ]);
}

/** What went wrong, in words, from whatever was thrown. */
function reasonOf(kernel: Kernel, thrown: unknown): string {
  if (thrown instanceof WebAssembly.Exception) {
    const [type, text] = kernel.oc.getExceptionMessage(thrown);
    const meaning = MEANINGS.find(([start]) => type.startsWith(start))?.[1] ?? 'the kernel gave up';
    return `${meaning} [${text && text !== type ? `${type}: ${text}` : type}]`;
  }
  return thrown instanceof Error ? thrown.message : String(thrown);
}
