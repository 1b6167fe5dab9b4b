/** What fitting and taking off the header, and its growth when hot, are judged by. */
export interface ServiceSpec {
  /** How far the studs stand out of the head's face. */
  readonly studsStand: number;
  /** Kept between what is moved and what is in place. */
  readonly margin: number;
  /** How much further than its joint, stud or own size a thing is drawn. */
  readonly beyond: number;
  /** Mean temperatures of the metal when hot, C; `apart`: how much cooler one primary may run than another. */
  readonly hot: {
    readonly primaries: number;
    readonly apart: number;
    readonly head: number;
    readonly collector: number;
  };
}
