import { tidy } from '../../base/numbers.js';
import type { FlangeSpec, ServiceSpec, Studs } from '../job.js';
import type { Reading } from '../reading.js';
import type { Sections } from '../schema/job.js';
import { threadOf } from '../tables/threads.js';

/** Thread left outside the flange, in diameters: a washer, the nut and a few turns. Common practice, no source. */
const THREAD_OUTSIDE = 2;

/**
 * How fitting is judged, with its defaults. All of them common practice or assumption, no source; a header that
 * is worked hard runs hotter near the head and cooler toward the collector than its mean.
 * @param asked whether the job has anything to be fitted; else nothing is noted
 */
export function completeService(
  { service: given, studs: givenStuds }: Pick<Sections, 'service' | 'studs'>,
  { flange, studs }: { readonly flange: FlangeSpec | undefined; readonly studs: Studs | undefined },
  asked: boolean,
  reading: Reading,
): ServiceSpec {
  const noted = asked || given !== undefined;
  const length = (path: string, value: number | undefined, standard: number): number =>
    noted ? reading.length(path, value, standard) : (value ?? standard);
  const heat = (key: string, value: number | undefined, standard: number): number =>
    noted ? reading.other(`service.hot.${key}`, value, standard, `${tidy(standard)} C`) : (value ?? standard);
  const thick = flange?.thickness ?? 0;
  const thread = studs?.thread === undefined ? undefined : threadOf(studs.thread)?.diameter;
  const standing = thick + THREAD_OUTSIDE * (thread ?? studs?.hole ?? 8);
  const stands = givenStuds?.stands;
  if (stands !== undefined && stands <= thick)
    reading.error('job/contradiction', 'studs.stands', {
      what: `studs.stands is ${reading.mm(stands)}; the flange on them is ${reading.mm(thick)} thick`,
      why: 'no thread is left for the nuts',
      fix: `measure from the head's face; ${reading.mm(standing)} is usual`,
    });
  const hot = given?.hot;
  return {
    studsStand: studs === undefined ? standing : length('studs.stands', stands, standing),
    margin: length('service.margin', given?.margin, 1),
    beyond: length('service.beyond', given?.beyond, 3),
    hot: {
      primaries: heat('primaries', hot?.primaries, 600),
      apart: heat('apart', hot?.apart, 100),
      head: heat('head', hot?.head, 150),
      collector: heat('collector', hot?.collector, 500),
    },
  };
}
