/** What `explain CODE` prints. */
export interface Page {
  /** Exit code where such a problem stops the work: 1 our bug, 2 the job is wrong, 3 the job cannot be made. */
  readonly exit: 1 | 2 | 3;
  /** One line. */
  readonly title: string;
  /** What it means, why it matters at the bench, and how to cure it: a few short sentences. */
  readonly text: string;
}
