import { existsSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, test } from 'vitest';

/** The two walks of DEVELOPERS.md lead through files that are there, and each file has what the walk says of it. */

const HOME = resolve(import.meta.dirname, '..');
const text = readFileSync(resolve(HOME, 'DEVELOPERS.md'), 'utf8');
const [, walks = ''] = /^## Two walks\n([\s\S]*?)^## /m.exec(text) ?? [];
const each = walks
  .split(/^### /m)
  .slice(1)
  .map((walk) => ({
    title: walk.split('\n')[0] ?? '',
    steps: [...walk.matchAll(/^\d+\. `([^`]+)`(?:, `([^`]+)`)?/gm)].map(([, file = '', name]) => ({ file, name })),
  }));

test('there are the walk of a cue and the walk of a spec value', () => {
  expect(each.map(({ title }) => title)).toEqual([
    'A cue, from MDX to the picture',
    'A spec value, from YAML to the page',
  ]);
});

describe.each(each)('$title', ({ steps }) => {
  test('is a walk of at most 12 files, each once', () => {
    expect(steps.length).toBeGreaterThan(6);
    expect(steps.length).toBeLessThanOrEqual(12);
    expect(new Set(steps.map(({ file }) => file)).size).toBe(steps.length);
  });

  test.each(steps)('$file has $name', ({ file, name }) => {
    expect(existsSync(resolve(HOME, 'src', file))).toBe(true);
    if (name === undefined) return;
    const source = readFileSync(resolve(HOME, 'src', file), 'utf8');
    expect(source).toMatch(new RegExp(`(function|const|class|interface) ${name}\\b`));
  });

  test('each file names one on the way before or after it', () => {
    const source = (file: string) => readFileSync(resolve(HOME, 'src', file), 'utf8');
    const names = (file: string) => file.split('/').at(-1) ?? file;
    const room = (file: string) => `${file.split('/')[1]}/index.ts`;
    const alone = steps.filter(
      ({ file }) =>
        !steps.some(
          (other) =>
            other.file !== file &&
            (source(file).includes(names(other.file)) ||
              source(other.file).includes(names(file)) ||
              source(file).includes(room(other.file)) ||
              source(other.file).includes(room(file))),
        ),
    );
    expect(alone).toEqual([]);
  });
});
