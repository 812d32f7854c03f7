import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { expect, test } from 'vitest';
import { DOCS_PAGES } from '../support/docs/index.ts';

test.each(Object.entries(DOCS_PAGES))('%s is what npm run docs would write', (path, page) => {
  expect(readFileSync(resolve(import.meta.dirname, '../..', path), 'utf8')).toBe(page());
});
