import type { Page } from './page.js';

export const filePages = {
  'file/bug': {
    exit: 1,
    title: 'A fault of the program itself',
    text: 'The program reached a state that its author thought impossible while working on this part. Nothing was written. Please report it with the job file.',
  },
  'file/off-measure': {
    exit: 1,
    title: 'A written file does not measure as asked',
    text: 'Every file is read back by another reader and measured before it is handed out. This one differs from the part it was made from by more than the tolerance, so nothing of the build was handed out; the last good export is untouched. It is a fault of the program, not of the job: please report it with the job file. Do not cut or print from a copy of the file.',
  },
  'file/target-is-a-file': {
    exit: 3,
    title: 'A file stands where the export folder should be',
    text: 'The files of a build go into a folder of their own, and a file of that name is in the way. It is left alone. Move or rename it, or name another folder.',
  },
  'file/not-ours': {
    exit: 3,
    title: 'The folder was not made by this program',
    text: 'A build replaces its export folder as a whole, so it only touches folders that it made itself: those that are empty, or hold a manifest.json that it wrote. This one holds other things and is left alone. Name another folder, or move what is in it.',
  },
  'file/no-rights': {
    exit: 3,
    title: 'No right to write there',
    text: 'The system does not let this user write into that folder. Nothing was changed. Give yourself the right to write there, or name another folder.',
  },
  'file/read-only': {
    exit: 3,
    title: 'The disk cannot be written to',
    text: 'The disk or share is mounted for reading only. Nothing was changed. Name a folder on another disk.',
  },
  'file/disk-full': {
    exit: 3,
    title: 'The disk is full',
    text: 'There was no room left for the new files. What had been written of them was taken away again; the last good export is untouched. Free some space and build again: while a build is written, the old and the new files both stand on the disk.',
  },
  'file/cannot-write': {
    exit: 3,
    title: 'The files could not be written',
    text: 'The system refused to write the export folder, for the reason it gives. The last good export is untouched. Cure the cause or name another folder.',
  },
  'file/busy': {
    exit: 3,
    title: 'Another build is writing to this folder',
    text: 'Two builds that write to one folder at the same time would mix their files, so the second waits for a while and then gives up. Wait for the other to end. A lock left behind by a build that was cut short is broken by itself; one from another computer on a shared disk is not, for nobody here can tell whether that build still runs: if it does not, delete the lock file by hand.',
  },
  'file/changed-by-hand': {
    exit: 3,
    title: 'A file of an earlier build had been changed by hand',
    text: 'A file that the program wrote is no longer as it was written, and this build makes it anew. The changed one is kept beside it under another name, so that no work is lost. Use the new one for cutting or printing unless you know why not; put changes into the job file, then they are measured too.',
  },
  'file/stale': {
    exit: 3,
    title: 'A file no longer fits the job',
    text: 'A build of some parts or formats carries the other files over as they are, and so does a build of a job whose frozen routes no longer fit it with all that was made along them. These were made from a job that has changed since, so they may not fit what was built now: a flange from before and a merge plate from after are scrap together. Where routes are off the job, route first; then build everything again before you cut or print.',
  },
  'file/mended': {
    exit: 3,
    title: 'An earlier build had been cut short',
    text: 'A build was stopped while its files were being put in place, by a power cut or by hand. The folder has been put right: it holds all the files of one build, never a mixture.',
  },
} as const satisfies Record<string, Page>;
