import type { Guess, Job } from '../job.js';
import type { Reading } from '../reading.js';
import type { Sections } from '../schema/job.js';
import { completeFlange, completeMergePlate, completeStrongback } from './plates.js';
import { completeAsCut } from './as-cut.js';
import { completePorts } from './ports.js';
import { completeService } from './service.js';
import { completeShop } from './shop.js';
import { completeStuds } from './studs.js';
import { completeClear, completeKeepOuts, completeTackFixture, completeWrench } from './surroundings.js';
import {
  completeCollector,
  completeEngine,
  completeLength,
  completePrimaries,
  completeTube,
} from './tubes.js';

/** A job with every default filled in and noted. */
export function completeJob(written: Sections, guesses: readonly Guess[], reading: Reading): Job {
  const tube = completeTube(written.tube, reading);
  const cut = written.flange !== undefined || written.studs !== undefined;
  const ports = completePorts(written.ports, cut, reading);
  const studs = completeStuds(written.studs, ports, reading);
  const flange = completeFlange(written.flange, ports, studs, tube, reading);
  const collector = completeCollector(written.collector, tube, reading);
  const routed = collector !== undefined || written.keep_outs !== undefined || written.length !== undefined;
  const clear = completeClear(written.clear, routed, reading);
  return {
    name: written.job ?? '',
    unit: reading.unit,
    engine: completeEngine(written.engine),
    ports,
    measuredOn: reading.word('ports.measured_on', written.ports?.measured_on, 'head'),
    studs,
    flange,
    strongback: completeStrongback(written.strongback, reading),
    tube,
    primaries:
      tube || written.primaries
        ? completePrimaries(written.primaries, collector, flange, reading)
        : undefined,
    collector,
    mergePlate: completeMergePlate(written.merge_plate, collector, tube, reading),
    length: completeLength(written.length, reading),
    rack: written.rack,
    asCut: completeAsCut(written.as_cut),
    keepOuts: completeKeepOuts(written.keep_outs, clear, reading),
    clear,
    wrench: completeWrench(written.wrench, studs !== undefined, reading),
    service: completeService(written, { flange, studs }, collector !== undefined, reading),
    shop: completeShop(written, written.rack !== undefined, reading),
    tackFixture: completeTackFixture(written.tack_fixture, collector, reading),
    defaults: reading.defaults,
    guesses,
  };
}
