import type { Export, ExportFile } from '../../src/files/export/write-export.js';

/** A file of an invented build; `part` is the name up to the first dot. */
export function file(path: string, bytes: string, inputs = 'a'): ExportFile {
  return { path, bytes, inputs, part: path.split('.')[0] ?? path };
}

/** An invented build of some files. The job's inputs are those of the files, and of any others given. */
export function exportOf(files: readonly ExportFile[], change: Partial<Export> = {}): Export {
  return {
    job: 'sample',
    jobHash: 'j1',
    versions: { tackwright: '0.1.0' },
    seed: 1,
    measures: [],
    partial: false,
    files,
    ...change,
    partInputs: { ...Object.fromEntries(files.map((f) => [f.part, f.inputs])), ...change.partInputs },
  };
}
