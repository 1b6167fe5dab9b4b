import { bundle } from './bundle.js';

/** The tests run the built program as a user does, so it is built from the sources under test first. */
export default async function setup(): Promise<void> {
  await bundle().catch((reason: unknown) => console.error(String(reason).slice(0, 300)));
}
