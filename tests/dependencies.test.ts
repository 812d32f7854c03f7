import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { expect, test } from 'vitest';
import manifest from '../package.json' with { type: 'json' };

const HOME = resolve(import.meta.dirname, '..');
const shipped = execFileSync('git', ['grep', '-lI', '--untracked', '', '--', 'src', 'astro.config.mjs'], {
  cwd: HOME,
  encoding: 'utf8',
})
  .split('\n')
  .filter((path) => /\.(ts|tsx|astro|css|mjs)$/.test(path))
  .map((path) => readFileSync(resolve(HOME, path), 'utf8'));

test.each(Object.keys(manifest.dependencies))('%s is used by what is shipped, not by tests alone', (name) => {
  const asked = new RegExp(`['"]${name.replaceAll('.', '\\.')}(/[^'"]*)?['"]`);
  expect(shipped.some((text) => asked.test(text))).toBe(true);
});
