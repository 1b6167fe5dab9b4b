import type { Crew, Work, WorkKind } from './crew.js';
import type { CollectorPose } from './set-problem.js';

/** A part of a search that any thread that knows the job can work off: numbers and plain objects only. */
export type Task =
  | {
      readonly kind: WorkKind;
      /** The collector's pose that the order belongs to; the job's own where undefined. */
      readonly pose: CollectorPose | undefined;
      readonly order: Work[WorkKind]['order'];
    }
  | { readonly kind: 'quick search'; readonly pose: CollectorPose };

/** Threads that know one job. What comes of tasks is the same however many there are. */
export interface Team {
  /** What comes of each task, by its place; undefined where the search was stopped before. */
  run(tasks: readonly Task[]): readonly unknown[];
}

/** The team as a crew for the problem of one pose. */
export const crewOf = (team: Team, pose: CollectorPose | undefined): Crew => ({
  run: <K extends WorkKind>(kind: K, orders: readonly Work[K]['order'][]) =>
    team.run(orders.map((order) => ({ kind, pose, order }))) as readonly (Work[K]['made'] | undefined)[],
});
