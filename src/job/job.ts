import type { ShopSpec } from './shop.js';
import type { Port, Studs } from './ports.js';
import type { FlangeSpec, MergePlateSpec, StrongbackSpec } from './plates.js';
import type { AsCut, PrimariesSpec, Tube } from './tubes.js';
import type { CollectorSpec } from './collector.js';
import type { KeepOut } from './keep-outs.js';
import type { ServiceSpec } from './service.js';
import type { TackFixtureSpec } from './tack-fixture.js';

// A job's sections are had from here, so that who uses one need not know in which file it is told.
export type * from './collector.js';
export type * from './keep-outs.js';
export type * from './plates.js';
export type * from './ports.js';
export type * from './service.js';
export type * from './tack-fixture.js';
export type * from './tubes.js';

/** A value the job did not give, and what was taken instead. */
export interface DefaultTaken {
  readonly path: string;
  /** As shown to the user: "10 mm", "12 deg", "plasma". */
  readonly value: string;
}

/** A value that the job says is only a guess. */
export interface Guess {
  readonly path: string;
  readonly value: string;
}

/**
 * A job as the rest of the program sees it: checked, complete with defaults, frozen.
 * Lengths mm, angles rad, places in the engine's frame (right, up, out) unless a line says otherwise.
 * Optional sections are those a job may leave out; a command says which of them it needs.
 */
export interface Job {
  readonly name: string;
  /** The unit that bare numbers were read in. Everything below is mm. */
  readonly unit: 'mm' | 'in';
  readonly engine:
    | {
        readonly cylinders: number;
        readonly firingOrder: readonly number[] | undefined;
        /** cm3 */
        readonly capacity: number | undefined;
        /** rev/min */
        readonly tunedFor: number | undefined;
        /** rad of crank before bottom dead centre */
        readonly exhaustOpens: number | undefined;
      }
    | undefined;
  readonly ports: readonly Port[];
  readonly measuredOn: 'head' | 'gasket' | 'flange';
  readonly studs: Studs | undefined;
  readonly flange: FlangeSpec | undefined;
  readonly strongback: StrongbackSpec | undefined;
  readonly tube: Tube | undefined;
  readonly primaries: PrimariesSpec | undefined;
  readonly collector: CollectorSpec | undefined;
  readonly mergePlate: MergePlateSpec | undefined;
  readonly length: { readonly from: number; readonly to: number; readonly spread: number } | undefined;
  readonly rack: string | undefined;
  /** What became of pieces of the cut list, by their names there. */
  readonly asCut: Readonly<Record<string, 'good' | 'scrap' | AsCut>>;
  readonly keepOuts: readonly KeepOut[];
  readonly clear: { readonly tubeToTube: number; readonly nearSlots: number; readonly keepOut: number };
  readonly wrench: { readonly tool: 'socket' | 'spanner' };
  readonly service: ServiceSpec;
  readonly shop: ShopSpec;
  readonly tackFixture: TackFixtureSpec | undefined;
  readonly defaults: readonly DefaultTaken[];
  readonly guesses: readonly Guess[];
}
