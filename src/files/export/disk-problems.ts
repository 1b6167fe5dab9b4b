import type { Problem } from '../../base/problems.js';

/** The system's own short name for what went wrong, such as EACCES. */
export const systemCode = (error: unknown): string | undefined =>
  error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : undefined;

/**
 * What the system's refusal to write means to the user.
 * @param error what the system threw; an error that is none of the system's is thrown on
 * @param folder the export folder that was to be written
 */
export function problemFromDisk(error: unknown, folder: string): Problem {
  const code = systemCode(error);
  if (code === undefined) throw error;
  const place = { file: folder };
  const common = { severity: 'error', place } as const;
  const untouched = 'The files of this build are not there; the last good ones are untouched.';
  switch (code) {
    case 'EACCES':
    case 'EPERM':
      return {
        ...common,
        code: 'file/no-rights',
        what: `no right to write ${folder} (${code})`,
        why: untouched,
        fix: `give yourself the right to write into the folder above ${folder}, or name another folder`,
      };
    case 'EROFS':
      return {
        ...common,
        code: 'file/read-only',
        what: `${folder} stands on a disk that can only be read`,
        why: untouched,
        fix: 'name a folder on another disk',
      };
    case 'ENOSPC':
    case 'EDQUOT':
      return {
        ...common,
        code: 'file/disk-full',
        what: `no room left on the disk of ${folder} (${code})`,
        why: untouched,
        fix: 'free some space: the old and the new files both stand there while a build is written',
      };
    case 'ENOTDIR':
    case 'EEXIST':
      return {
        ...common,
        code: 'file/target-is-a-file',
        what: `a file stands in the way of ${folder} (${code})`,
        why: 'The files of a build go into a folder of their own.',
        fix: 'move or rename that file, or name another folder',
      };
    default:
      return {
        ...common,
        code: 'file/cannot-write',
        what: `the system refused to write ${folder}: ${error instanceof Error ? error.message : code}`,
        why: untouched,
        fix: 'cure the cause that the system names, or name another folder',
      };
  }
}
