import { expect, test } from 'vitest';
import { setUp } from '../../../src/node/programs/index.ts';

/** A machine with nothing on PATH; what is done to it is written down instead. */
function bareMachine(apt: boolean) {
  const done: string[] = [];
  const lines: string[] = [];
  return {
    done,
    said: () => lines.join('\n'),
    say: (text: string) => {
      lines.push(text);
      done.push(`say`);
    },
    installer: {
      can: async () => apt,
      packages: async (names: readonly string[]) => void done.push(`apt ${names.join(' ')}`),
      fetchChromium: async () => done.push('fetch'),
    },
  };
}
const found = { LIFTSIDE_CHROMIUM: '/bin/true' };

test('what is there is used, and nothing is installed', async () => {
  const machine = bareMachine(true);
  const env = { ...found, LIFTSIDE_FFMPEG: '/opt/ffmpeg' };
  expect(await setUp(env, machine.say, machine.installer)).toEqual({ chromium: '/bin/true', ffmpeg: '/opt/ffmpeg' });
  expect(machine.done.filter((what) => what !== 'say')).toEqual([]);
});

test('before anything is installed, the command says what and why', async () => {
  const machine = bareMachine(true);
  const result = await setUp({ ...found, PATH: '' }, machine.say, machine.installer);
  expect(result).toEqual({ chromium: '/bin/true' });
  const at = machine.done.indexOf('apt ffmpeg');
  expect(machine.done.slice(0, at)).toEqual(['say', 'say', 'say']);
  expect(machine.said()).toContain('ffmpeg: not found. It analyses and renders footage');
  expect(machine.said()).toContain('apt-get install -y --no-install-recommends ffmpeg');
  expect(machine.said()).toContain('ffmpeg: still missing');
});

test('LIFTSIDE_NO_INSTALL=1 stops it with the line to type', async () => {
  const machine = bareMachine(true);
  const env = { ...found, PATH: '', LIFTSIDE_NO_INSTALL: '1' };
  const { held } = await setUp(env, machine.say, machine.installer);
  expect(held).toEqual(['apt-get install -y --no-install-recommends ffmpeg']);
  expect(machine.done.filter((what) => what !== 'say')).toEqual([]);
  expect(machine.said()).toContain('\n  apt-get install -y --no-install-recommends ffmpeg');
});

test.each(['', '0'])('LIFTSIDE_NO_INSTALL=%s is no wish', async (no) => {
  const machine = bareMachine(true);
  await setUp({ ...found, PATH: '', LIFTSIDE_NO_INSTALL: no }, machine.say, machine.installer);
  expect(machine.done).toContain('apt ffmpeg');
});

test('where apt cannot install, a missing ffmpeg is only told', async () => {
  const machine = bareMachine(false);
  const result = await setUp({ ...found, PATH: '' }, machine.say, machine.installer);
  expect(result).toEqual({ chromium: '/bin/true' });
  expect(machine.done.filter((what) => what !== 'say')).toEqual([]);
  expect(machine.said()).toContain("Install it with your system's package manager");
});
