import { kill, pid, argv } from 'node:process';
import { writeExport } from '../../src/files/export/write-export.js';
import { exportOf, file } from './export-build.js';

/*
 * A build in a process of its own, for tests that kill it or take its rights away:
 * folder, stage to be killed at (or `-`), text of its files. Prints the codes of the problems it met.
 */
const [folder = '', deadlyStage = '-', text = ''] = argv.slice(2);
const files = ['flange.dxf', 'flange.step', 'plate.dxf'].map((name) => file(name, `${name} ${text}`));
const { problems } = await writeExport(folder, exportOf(files), {
  onStage: (stage) => {
    if (stage === deadlyStage) kill(pid, 'SIGKILL');
  },
});
console.log(problems.map((problem) => problem.code).join(' '));
