import { existsSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { expect, test } from 'vitest';

const HOME = resolve(import.meta.dirname, '..');
const text = readFileSync(resolve(HOME, 'docs/security.md'), 'utf8');
const threats = text.split('## Threats')[1]?.split('\n## ')[0] ?? '';
const rows = threats.split('\n').filter((line) => line.startsWith('| ') && !/^\| (threat|---)/.test(line));

test('every threat in docs/security.md names a test that is there', () => {
  expect(rows.length).toBeGreaterThanOrEqual(15);
  const missing: string[] = [];
  for (const row of rows) {
    const cited = [...row.matchAll(/`(tests\/[^`]+)`: ((?:"[^"]+"(?:; )?)+)/g)];
    if (cited.length === 0) missing.push(row);
    for (const [, file = '', titles = ''] of cited) {
      const source = existsSync(resolve(HOME, file)) ? readFileSync(resolve(HOME, file), 'utf8') : '';
      for (const [, title = ''] of titles.matchAll(/"([^"]+)"/g))
        if (!source.includes(`'${title}'`)) missing.push(`${file}: ${title}`);
    }
  }
  expect(missing).toEqual([]);
});

test('it is found from the top', () => {
  for (const file of ['README.md', 'DEVELOPERS.md', 'SECURITY.md'])
    expect([file, readFileSync(resolve(HOME, file), 'utf8').includes('(docs/security.md)')]).toEqual([file, true]);
});
