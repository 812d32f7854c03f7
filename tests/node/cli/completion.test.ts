import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { execa } from 'execa';
import { expect, test } from 'vitest';
import { loadCommands } from '../../../src/node/cli/commands.ts';
import { completionScript } from '../../../src/node/cli/completion-scripts.ts';
import { call } from '../../support/call.ts';

// The judge is the shell itself, where it is on this machine; bash is on every one that these tests run on.

const commands = loadCommands(undefined);
const there = async (shell: string) => (await execa(shell, ['-c', ''], { reject: false })).exitCode === 0;

/** What bash offers after these words, the last of them unfinished. */
async function offered(...words: string[]): Promise<string[]> {
  const out = completionScript('bash', await commands);
  const folder = await mkdtemp(join(tmpdir(), 'liftside-completion-'));
  const script = `${out}
COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); COMPREPLY=(); _liftside; printf '%s\\n' "\${COMPREPLY[@]}"`;
  await writeFile(join(folder, 'film.mov'), '');
  try {
    const { stdout, stderr } = await execa('bash', ['--norc', '-c', script, 'bash', ...words], { cwd: folder });
    expect(stderr).toBe('');
    return stdout.split('\n').filter(Boolean);
  } finally {
    await rm(folder, { recursive: true });
  }
}

test('commands, options, what may stand after an option, and files', async () => {
  expect(await offered('liftside', 'che')).toEqual(['check', 'check-pack']);
  expect(await offered('liftside', 'check', '--s')).toEqual(['--sarif']);
  expect(await offered('liftside', 'build', '--footage', '')).toEqual(['rendered', 'uncut']);
  expect(await offered('liftside', 'build', '--footage', 'u')).toEqual(['uncut']);
  expect(await offered('liftside', 'import', 'fi')).toEqual(['film.mov']);
  expect(await offered('liftside', 'import', 'film.mov', '--into', 'fi')).toEqual(['film.mov']);
});

for (const shell of ['zsh', 'fish'] as const)
  test.skipIf(!(await there(shell)))(`${shell} reads its script without a complaint (needs ${shell})`, async () => {
    const folder = await mkdtemp(join(tmpdir(), 'liftside-completion-'));
    await writeFile(join(folder, 'script'), completionScript(shell, await commands));
    const read = await execa(shell, ['-n', join(folder, 'script')], { reject: false });
    await rm(folder, { recursive: true });
    expect([read.exitCode, read.stderr]).toEqual([0, '']);
  });

test('whatever is in a text stays a text', () => {
  const odd = `it's $(touch here) \`x\` [a]: "b"\\`;
  const one = [
    {
      name: 'odd',
      summary: odd,
      args: [],
      options: [{ name: 'odd', help: odd, value: 'X' }],
      run: async () => 0 as const,
    },
  ];
  expect(completionScript('fish', one)).toContain(`-d 'it\\'s $(touch here) \`x\` [a]: "b"\\\\'`);
  expect(completionScript('zsh', one)).toContain(`'odd:it'\\''s $(touch here) \`x\` \\[a\\]\\: "b"\\\\'`);
});

test('the command writes the script, and another shell is told by name', async () => {
  expect((await call(['completion', 'bash'])).out).toBe(completionScript('bash', await commands));
  const { code, said } = await call(['completion', 'csh']);
  expect([code, said]).toEqual([2, expect.stringContaining('"csh" is no shell')]);
});
