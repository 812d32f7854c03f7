import { readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { createRequire } from 'node:module';
import type { AddressInfo } from 'node:net';
import { resolve } from 'node:path';
import { expect, test } from '@playwright/test';
import { build, type Rollup } from 'vite';
import { fitClass, fitJson, partLookup } from '../../src/core/fit/index.ts';
import type { FileFacts } from '../../src/core/model/index.ts';
import { loadShop } from '../../src/node/files/index.ts';
import { loadSolver } from '../../src/node/programs/index.ts';

const HOME = resolve(import.meta.dirname, '../..');
const installed = createRequire(import.meta.url);

/** The worker as one script of its own. */
async function bundled(): Promise<string> {
  const made = (await build({
    configFile: false,
    root: HOME,
    logLevel: 'error',
    // Its build for pages wants a document, which a worker does not have.
    resolve: { alias: { 'decode-named-character-reference': installed.resolve('decode-named-character-reference') } },
    build: { write: false, minify: false, rollupOptions: { input: resolve(import.meta.dirname, 'fit-in-worker.ts') } },
  })) as Rollup.RollupOutput;
  return made.output[0].code;
}

/** Read with its numbers to ten figures: `Math.exp` and its like may differ in the last place between engines. */
const roundedJson = (json: string): unknown =>
  JSON.parse(json, (_, value: unknown) => (typeof value === 'number' ? Number(value.toPrecision(10)) : value));

test('a browser worker fits the class as the command line does', async ({ page }) => {
  const { shop, texts } = await loadShop(resolve(HOME, 'content'));
  const facts = new Map<string, FileFacts>();
  for (const { files, captions } of shop.recordings)
    for (const { file, facts: known } of [...files, ...(captions ? [captions] : [])]) facts.set(file, known);

  const script = await bundled();
  const wasm = readFileSync(installed.resolve('highs/runtime'));
  const server = createServer(({ url }, answer) => {
    const [type, body] =
      url === '/worker.js'
        ? ['text/javascript', script]
        : url === '/highs.wasm'
          ? ['application/wasm', wasm]
          : ['text/html', '<!doctype html>'];
    answer.setHeader('Content-Type', type).end(body);
  });
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
  try {
    await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
    const inWorker = await page.evaluate(
      ([textsGiven, factsGiven]) =>
        new Promise<string>((done, fail) => {
          const worker = new Worker('/worker.js', { type: 'module' });
          worker.addEventListener('message', ({ data }) => done(data));
          worker.addEventListener('error', ({ message }) => fail(new Error(message)));
          worker.postMessage({
            texts: new Map(textsGiven),
            facts: new Map(factsGiven),
            classId: 'chain-saturday',
            wasm: '/highs.wasm',
          });
        }),
      [[...texts], [...facts]] as const,
    );
    const shopClass = shop.classes.find(({ id }) => id === 'chain-saturday');
    if (!shopClass) throw new Error('the demo has its class');
    const here = fitJson(fitClass(shopClass, partLookup(shop), await loadSolver()), []);
    expect(roundedJson(inWorker)).toEqual(roundedJson(JSON.stringify(here)));
    expect(here.fits).toBe(true);
  } finally {
    server.close();
  }
});
