import type { Checked } from './checked.js';
import { adviseOnJob } from './advice.js';
import { checkNames, checkSections } from './names.js';
import { checkPorts } from './ports.js';
import { checkStuds } from './studs.js';
import { checkCollector, checkEngine, checkLength, checkPrimaries, checkTube } from './tubes.js';

/** All checks that need more than one key. Each passes over what is not there. */
export function checkJob(checked: Checked): void {
  checkSections(checked);
  checkNames(checked);
  checkEngine(checked);
  checkPorts(checked);
  checkStuds(checked);
  checkTube(checked);
  checkPrimaries(checked);
  checkCollector(checked);
  checkLength(checked);
  adviseOnJob(checked);
}
