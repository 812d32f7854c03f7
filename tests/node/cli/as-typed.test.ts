import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { optionsTyped } from '../../support/as-typed.ts';

test('the scripts of the package start Node with what it needs, as the typed command does', () => {
  const { scripts } = JSON.parse(readFileSync('package.json', 'utf8')) as { scripts: Record<string, string> };
  const options = optionsTyped().filter((option) => !option.startsWith('--disable-warning'));
  expect(options).not.toEqual([]);
  const starting = Object.values(scripts).filter((script) => script.includes('src/node/cli/liftside.mjs'));
  expect(starting.length).toBeGreaterThan(3);
  for (const script of starting) expect(script).toContain(`node ${options.join(' ')} src/node/cli/liftside.mjs`);
});
