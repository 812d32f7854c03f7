import { writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { DOCS_PAGES } from './docs/index.ts';

// npm run docs: writes the pages that are made from the code.
for (const [path, page] of Object.entries(DOCS_PAGES)) {
  writeFileSync(resolve(import.meta.dirname, '../..', path), page());
  console.log(`wrote ${path}`);
}
