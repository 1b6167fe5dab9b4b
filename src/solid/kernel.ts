import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { setFlagsFromString } from 'node:v8';
import type * as Replicad from 'replicad';
import type { OpenCascadeInstance } from 'replicad-opencascadejs';

/** The CAD kernel, open. Only this room looks inside; other rooms carry it from function to function. */
export interface Kernel {
  /** @internal The kernel's own classes. */
  readonly oc: OpenCascadeInstance;
  /** @internal The modelling words on top of them. */
  readonly replicad: typeof Replicad;
}

export interface KernelOptions {
  /**
   * True for a process that stays (the live server) or that makes dozens of parts: the machine code is
   * then optimised while it runs. A one-shot command is quicker without: it would wait at its end for
   * code that it no longer needs.
   */
  readonly longLived?: boolean;
}

let opening: Promise<Kernel> | undefined;

/**
 * Opens the kernel, once per process (per worker thread); later calls get the same one, whatever they ask.
 * About 0.15 s and 100 MB. Nothing of the kernel is loaded before the first call.
 */
export function openKernel(options: KernelOptions = {}): Promise<Kernel> {
  opening ??= open(options);
  return opening;
}

async function open({ longLived = false }: KernelOptions): Promise<Kernel> {
  if (!longLived) hurry();
  const here = createRequire(import.meta.url);
  // The machine code is compiled in the background while the JavaScript is read and parsed.
  const compiling = readFile(here.resolve('replicad-opencascadejs/wasm')).then((bytes) =>
    WebAssembly.compile(bytes),
  );
  const [replicad, { default: init }] = await Promise.all([
    import('replicad'),
    import('replicad-opencascadejs'),
  ]);
  const compiled = await compiling;
  const oc = await init({
    // The kernel reports its own progress on standard output; that belongs to the command alone.
    print() {},
    printErr() {},
    instantiateWasm(imports: WebAssembly.Imports, done: (made: WebAssembly.Instance, of: unknown) => void) {
      const made = new WebAssembly.Instance(compiled, imports);
      done(made, compiled);
      return made.exports;
    },
  });
  replicad.setOC(oc);
  return { oc, replicad };
}

/**
 * Compiles each kernel function plainly when it is first called, and never a second time.
 * Measured on node 20: a flange in 0.37 s instead of 0.83 s. Newer engines know other flags, gain little,
 * and print a complaint about a flag they do not know: so only the versions that were measured.
 */
function hurry(): void {
  const version = Number(process.versions.node.split('.')[0]);
  if (version < 20 || version > 22) return;
  setFlagsFromString('--wasm-lazy-validation');
  setFlagsFromString('--liftoff-only');
}
