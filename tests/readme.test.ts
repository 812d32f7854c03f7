import { globSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { COMMANDS } from '../src/core/edit/index.ts';
import { loadCommands } from '../src/node/cli/commands.ts';
import { call } from './support/call.ts';
import { readWalk, section } from './support/readme-walk.ts';

// What the README and docs tell people to type and press is there. tests/faults/long/readme-walk.test.ts does all of it.

const HOME = resolve(import.meta.dirname, '..');
const PAGES = ['README.md', ...globSync('docs/*.md', { cwd: HOME })];
const page = (name: string) => readFileSync(join(HOME, name), 'utf8');
const walk = () => readWalk(section(page('README.md'), 'Your own class, in ten minutes'));
const commands = loadCommands(undefined);
/** Of npm and of the shell, not of Liftside. */
const OF_OTHERS = new Set(['no-serve']);

test.each(PAGES)('every command and option that %s names is there', async (name) => {
  const known = await commands;
  const text = page(name);
  // In blocks of sh, and in code that begins with the program's name.
  const lines = [
    ...[...text.matchAll(/^```sh\n([\s\S]*?)^```$/gm)].flatMap(([, block = '']) => block.split('\n')),
    ...[...text.matchAll(/`([^`\n]*)`/g)].map(([, code = '']) => code),
  ].map((line) => line.replace(/\s#.*$/, ''));
  const calls = lines.flatMap((line) => /(?:^|\s)(?:npx )?liftside ([a-z].*)$/.exec(line)?.[1] ?? []);
  const wrong = calls.flatMap((words) => {
    const [called = '', ...rest] = words.split(/\s+/);
    const found = known.find((each) => each.name === called);
    if (!found) return [`${words}: no such command`];
    const options = new Set([...found.options.map((option) => option.name), 'content', 'help']);
    return rest
      .flatMap((word) => /^--([a-z-]+)/.exec(word)?.[1] ?? [])
      .filter((option) => !options.has(option) && !OF_OTHERS.has(option))
      .map((option) => `${words}: no option --${option}`);
  });
  expect(wrong).toEqual([]);
});

test('the table of commands names every command once, with options that it has', async () => {
  const known = await commands;
  const rows = section(page('README.md'), 'Commands')
    .split('\n')
    .filter((line) => line.startsWith('| `'));
  const named = new Set<string>();
  for (const row of rows) {
    const first = row.split(/(?<!\\)\|/)[1] ?? '';
    for (const [, code = ''] of first.matchAll(/`([^`]+)`/g)) {
      const command = known.find(({ name }) => name === code.split(/[ [<]/, 1)[0]);
      if (!command) {
        expect.soft(code, 'an option of the row before, or a command').toMatch(/^--/);
        continue;
      }
      named.add(command.name);
      for (const [, option] of code.matchAll(/--([a-z-]+)/g))
        expect.soft([code, command.options.some(({ name }) => name === option)]).toEqual([code, true]);
    }
  }
  expect([...named].toSorted()).toEqual(known.map(({ name }) => name).toSorted());
});

test('every key of the ten minutes does something in the cutting room', () => {
  const keys = new Set(COMMANDS.flatMap((command) => command.keys));
  const pressed = walk().flatMap(({ deeds }) => deeds.flatMap((deed) => (deed.does === 'presses' ? [deed.key] : [])));
  expect(pressed.length).toBeGreaterThan(15);
  expect(pressed.filter((key) => !keys.has(key))).toEqual([]);
});

test('with its files written, its cues set and its texts typed, the shop of the ten minutes passes check', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'liftside-readme-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const cwd = join(folder, 'liftside');
  mkdirSync(cwd);
  await call(['new', 'shop', '../our-shop'], { cwd });
  const typed: string[] = [];
  for (const deed of walk().flatMap(({ deeds }) => deeds)) {
    if (deed.does === 'types') typed.push(deed.words);
    if (deed.does !== 'writes') continue;
    mkdirSync(dirname(resolve(cwd, deed.file)), { recursive: true });
    writeFileSync(resolve(cwd, deed.file), deed.text);
  }
  expect(typed).toHaveLength(3);
  // The steps are written from the last to the first.
  const lesson = join(folder, 'our-shop/lessons/first-lesson.mdx');
  let step = 0;
  const texts = typed.toReversed();
  const whole = readFileSync(lesson, 'utf8').replaceAll(/^(#{2,3}) .*$/gm, (heading, marks: string) => {
    const cue = `${heading}\n<Cue at="0:00:0${step * 4}" />`;
    return marks === '##' ? cue : `${cue}\n${texts[step++]}`;
  });
  writeFileSync(lesson, whole);
  const { out } = await call(['check', '--json'], { content: join(folder, 'our-shop') });
  const { diagnostics } = JSON.parse(out) as { diagnostics: { rule: string; message: string }[] };
  // What only the film itself can bring.
  expect(new Set(diagnostics.map(({ rule }) => rule))).toEqual(new Set(['captions-missing', 'footage-missing']));
});
