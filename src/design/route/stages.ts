/** One stage of growing effort. */
export interface Stage {
  /** Pitch (mm) of the two-bend grid. */
  readonly pitch: number;
  /** Tries at three bends, for each port and slot. */
  readonly tries: number;
  /** Routes kept of each weld count, for each port and slot. */
  readonly keep: number;
  /** Step (mm) between the lengths tried. */
  readonly step: number;
}

/** The stages, as they measured best on the routing cases. */
export const stages: readonly Stage[] = [
  { pitch: 28, tries: 600, keep: 6, step: 50 },
  { pitch: 16, tries: 3000, keep: 12, step: 30 },
  { pitch: 9, tries: 8000, keep: 24, step: 16 },
  { pitch: 6, tries: 20000, keep: 40, step: 10 },
  { pitch: 4, tries: 40000, keep: 60, step: 5 },
];
