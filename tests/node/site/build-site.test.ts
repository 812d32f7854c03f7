import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { replaceIn } from '../../../src/core/check/index.ts';
import { loadShop } from '../../../src/node/files/index.ts';
import { buildSite, ContentErrors } from '../../../src/node/site/index.ts';
import { shopFolder } from '../../support/shop-folder.ts';

test('content with errors builds nothing, and all of them are told', async () => {
  const out = mkdtempSync(join(tmpdir(), 'liftside-out-'));
  onTestFinished(() => rmSync(out, { recursive: true }));
  // No footage in the folder, and an unknown spec.
  const content = shopFolder(replaceIn('lessons/chain.mdx', 'of="axle-nut"', 'of="axel-nut"'));
  const told = await buildSite({ content, out, home: resolve('.'), now: () => new Date('2026-11-25') }).catch(
    (error: unknown) => error,
  );
  expect(told).toBeInstanceOf(ContentErrors);
  const { message } = told as ContentErrors;
  expect(message).toMatch(/^the site is not built, because the content has errors/);
  expect(message).toContain('lessons/chain.mdx:17:');
  expect(message).toContain('spec-unknown');
  expect(message).toContain('footage-missing');
  expect(existsSync(join(out, 'index.html'))).toBe(false);
});

test('the shop is read once, by whoever asks for the site where they have a way to', async () => {
  const out = mkdtempSync(join(tmpdir(), 'liftside-out-'));
  onTestFinished(() => rmSync(out, { recursive: true }));
  const content = shopFolder();
  const asItWas = await loadShop(shopFolder(replaceIn('lessons/chain.mdx', 'of="axle-nut"', 'of="axel-nut"')));
  let times = 0;
  const load = async () => {
    times++;
    return asItWas;
  };
  const building = buildSite({ content, out, home: resolve('.'), now: () => new Date('2026-11-25'), load });
  await expect(building).rejects.toThrow('spec-unknown');
  expect(times).toBe(1);
});
