import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { command, inFolder } from '../support/command.js';
import { oneTube } from '../design/service/service-jobs.js';

it('check tells the steps, one line each, and carries them in its JSON', async () => {
  await inFolder(async (folder) => {
    const fan =
      '  - { name: fan, clear: 0, comes_out: left, box: { from: [-80, -160, 154.8], to: [80, -40, 200] } }\n';
    writeFileSync(path.join(folder, 'job.yaml'), oneTube(fan));
    const told = await command(folder, 'check', 'job.yaml');
    expect(told.code, told.error).toBe(0);
    const section = told.out.slice(told.out.indexOf('On and off the engine')).split('\n');
    expect(section[1]).toMatch(/^ {2}1 {2}collector: undo its outlet, draw it 48 mm along its flow \(down\)/);
    // 36 - 21.2 - 12.5: stud to tube, less the socket's half.
    expect(section[2]).toMatch(/^ {2}2 {2}nuts: 2; 2\.3 mm free of P1 at stud [12]$/);
    expect(section[3]).toMatch(/^ {2}3 {2}fan: left 163 mm/);
    expect(section[4]).toMatch(/^ {2}4 {2}header: out 29 mm, off the studs/);
    expect(section[5]).toBe('  comes off so, and goes on the other way round, 4 to 1');
    const { out } = await command(folder, 'check', 'job.yaml', '--json');
    const { service } = JSON.parse(out) as { service: { comesOff: boolean; steps: { name: string }[] } };
    expect(service.comesOff).toBe(true);
    expect(service.steps.map(({ name }) => name)).toEqual([
      'collector',
      'nut of stud 1',
      'nut of stud 2',
      'fan',
      'header',
    ]);
    writeFileSync(path.join(folder, 'job.yaml'), oneTube(fan.replace('comes_out: left, ', '')));
    const stuck = await command(folder, 'check', 'job.yaml');
    expect(stuck.code).toBe(0);
    expect(stuck.error).toMatch(/warning .*job\.yaml:\d+:\d+ .*service\/header-stays/);
    expect(stuck.out).toMatch(/3 {2}header: .*: blocked by fan \(1[0-9.]* mm short\)\n {2}does not come off/);
  });
}, 60_000);
