/** Anything that lives in the kernel's memory, which is not swept by itself. */
interface Disposable {
  delete(): void;
}

/** Runs work whose by-products are given back to the kernel's memory when it ends, however it ends. */
export function withScratch<T>(work: (keep: <D extends Disposable>(made: D) => D) => T): T {
  const kept: Disposable[] = [];
  try {
    return work((made) => {
      kept.push(made);
      return made;
    });
  } finally {
    for (const made of kept.reverse()) made.delete();
  }
}
