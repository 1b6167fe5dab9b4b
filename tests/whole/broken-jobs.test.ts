import { readdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { command, inFolder } from '../support/command.js';
import { brokenJob } from '../support/slips.js';

it('200 jobs broken by a seeded slip: build ends with exit code 2, says where and how to mend it, writes nothing', async () => {
  await inFolder(async (folder) => {
    for (let n = 0; n < 200; n++) {
      const { name, text } = brokenJob(n);
      writeFileSync(path.join(folder, 'job.yaml'), text);
      const { code, out, error } = await command(folder, 'build', 'job.yaml', '--formats', 'dxf');
      expect(code, `${n} ${name}: ${out}`).toBe(2);
      expect(out).toBe('');
      expect(error).toMatch(/job\.yaml:\d+:\d+/);
      for (const line of ['found', 'why', 'fix']) expect(error).toMatch(new RegExp(`^ {2}${line} +\\S`, 'm'));
      expect(error, `${n} ${name}`).not.toMatch(/\n\s+at |undefined|\[object|fault of tackwright/);
      expect(readdirSync(folder)).toEqual(['job.yaml']);
    }
  });
}, 120_000);
