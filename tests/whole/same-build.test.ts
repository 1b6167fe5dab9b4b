import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { half, job, rack, sound } from '../design/pieces/refused.js';
import { command, inFolder } from '../support/command.js';

it.each(['rack.yaml', '"rack.yaml"', "'rack.yaml' # at the back wall", './my rack.yaml'])(
  'a rack that changed is seen, however it is written: rack: %s',
  async (written) => {
    await inFolder(async (folder) => {
      const name = written.includes('my') ? 'my rack.yaml' : 'rack.yaml';
      const text = job(sound).replace('job: refused', `job: refused\nrack: ${written}`);
      writeFileSync(path.join(folder, 'job.yaml'), text);
      const build = async (price: number): Promise<string> => {
        writeFileSync(path.join(folder, name), rack(half.replace('price: 17', `price: ${price}`)));
        const { code } = await command(folder, 'build', 'job.yaml', '--out', 'made');
        expect(code).toBe(0);
        return readFileSync(path.join(folder, 'made', 'buy-list.csv'), 'utf8');
      };
      expect(await build(17)).toContain(',17,');
      expect(await build(17)).toContain(',17,');
      expect(await build(23)).toContain(',23,');
    });
  },
);
