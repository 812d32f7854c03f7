import { z } from 'zod';
import { packageSchema } from '../../../src/core/pack/index.ts';
import { architecturePicture } from './architecture.ts';
import { contentPage } from './content-page.ts';
import { licencesPage } from './licences-page.ts';
import { rulesPage } from './rules-page.ts';
import { usualPage } from './usual-page.ts';

/** Pages of the docs that are made from the code, by path relative to the project. */
export const DOCS_PAGES: Readonly<Record<string, () => string>> = {
  'docs/architecture.svg': architecturePicture,
  'docs/content-files.md': contentPage,
  'docs/licences.md': licencesPage,
  'docs/package.schema.json': () => `${JSON.stringify(z.toJSONSchema(packageSchema), null, 2)}\n`,
  'docs/rules.md': rulesPage,
  'docs/usual-values.md': usualPage,
};
