import loadHighs from 'highs';
import { fitClass, fitJson, highsSolver, partLookup } from '../../src/core/fit/index.ts';
import type { FileFacts } from '../../src/core/model/index.ts';
import { readShop } from '../../src/core/read/index.ts';

/** What the page hands over: content texts, what is known of the files they name, and which class to fit. */
export interface FitRequest {
  readonly texts: ReadonlyMap<string, string>;
  readonly facts: ReadonlyMap<string, FileFacts>;
  readonly classId: string;
  /** Address of the solver's WebAssembly file. */
  readonly wasm: string;
}

// Runs in a browser's worker: the same reader and the same fit as on the command line.
addEventListener('message', async ({ data }: MessageEvent<FitRequest>) => {
  const { texts, facts, classId, wasm } = data;
  const { shop } = readShop(texts, (file) => facts.get(file) ?? { state: 'missing' });
  const shopClass = shop.classes.find(({ id }) => id === classId);
  const solver = highsSolver(await loadHighs({ locateFile: () => wasm }));
  postMessage(shopClass ? JSON.stringify(fitJson(fitClass(shopClass, partLookup(shop), solver), [])) : 'no such class');
});
