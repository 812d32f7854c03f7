import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { expect, test } from 'vitest';
import { SHOTS } from './support/screenshots/shots.ts';

const HOME = resolve(import.meta.dirname, '..');
const PAGES = [
  'README.md',
  'DEVELOPERS.md',
  'CONTRIBUTING.md',
  'CHANGELOG.md',
  ...readdirSync(join(HOME, 'docs')).flatMap((name) => (name.endsWith('.md') ? [`docs/${name}`] : [])),
];

test.each(PAGES)('every file that %s links to is there', (page) => {
  // What stands in code is an example, not a link.
  const text = readFileSync(join(HOME, page), 'utf8').replaceAll(/```[\s\S]*?```|`[^`\n]*`/g, '');
  const links = [...text.matchAll(/\]\(([^)#\s]+)(?:#[^)]*)?\)/g)].map((match) => match[1] ?? '');
  const missing = links.filter((link) => !/^[a-z]+:/.test(link) && !existsSync(resolve(HOME, dirname(page), link)));
  expect(missing).toEqual([]);
});

test('README and contributors’ guide link to something', () => {
  for (const page of PAGES.slice(0, 2)) expect(readFileSync(join(HOME, page), 'utf8')).toMatch(/\]\([A-Za-z]/);
});

test('every picture of the docs is made by npm run screenshots, and used', () => {
  const there = readdirSync(join(HOME, 'docs/screenshots')).toSorted();
  expect(there).toEqual(
    SHOTS.flatMap(({ name, other = [] }) => [name, other].flat().map((each) => `${each}.webp`)).toSorted(),
  );
  const used = new Set(
    PAGES.flatMap((page) =>
      [...readFileSync(join(HOME, page), 'utf8').matchAll(/screenshots\/([\w-]+\.webp)/g)].map(([, name]) => name),
    ),
  );
  expect([...used].toSorted()).toEqual(there);
});
