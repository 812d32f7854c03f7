import { readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import addFormats from 'ajv-formats';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { SOUND_SHOP } from '../../../src/core/check/index.ts';
import { loadShop } from '../../../src/node/files/index.ts';
import { contentSchemas, idTypes, writeEditorHelp } from '../../../src/node/site/editor-help.ts';
import { shopFolder } from '../../support/shop-folder.ts';

test('the schemas accept what the reader accepts, and refuse an unknown key', () => {
  const ajv = new Ajv2020({ strict: false });
  addFormats.default(ajv);
  const files = {
    shop: 'shop.yaml',
    recording: 'recordings/chain.yaml',
    specs: 'specs/tarn-420.yaml',
    kit: 'kit.yaml',
    class: 'classes/saturday.yaml',
  };
  for (const [name, file] of Object.entries(files)) {
    const validate = ajv.compile(contentSchemas().get(name) ?? {});
    const content: Record<string, unknown> = parse(SOUND_SHOP[file] ?? '');
    expect(validate(content), `${name} ${JSON.stringify(validate.errors)}`).toBe(true);
    expect(validate({ ...content, nonsense: 1 })).toBe(false);
  }
});

test('ids become unions, elements their props; nothing becomes never', async () => {
  const { shop } = await loadShop(shopFolder());
  const types = idTypes(shop);
  expect(types).toContain('export type SpecId = "axle-nut" | "chain-slack";');
  expect(types).toContain('export type ToolId = "breaker-bar" | "torque-wrench" | "grinder";');
  expect(types).toContain('Spec: (props: { of: SpecId; measured?: boolean }) => unknown;');
  expect(idTypes({ ...shop, machines: [] })).toContain('export type SpecId = never;');
});

test('the help lies beside the content, and stays as it is while nothing changes', async () => {
  const folder = shopFolder();
  const { shop } = await loadShop(folder);
  await writeEditorHelp(folder, shop);
  const file = join(folder, '.liftside/editor/ids.d.ts');
  const before = await stat(file);
  await writeEditorHelp(folder, shop);
  expect((await stat(file)).mtimeMs).toBe(before.mtimeMs);
  const kit = JSON.parse(await readFile(join(folder, '.liftside/editor/kit.schema.json'), 'utf8'));
  expect(kit).toEqual(contentSchemas().get('kit'));
});
