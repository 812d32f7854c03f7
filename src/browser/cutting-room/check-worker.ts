import './policy.ts';
import { check } from '../../core/check/index.ts';
import type { FileFacts } from '../../core/model/index.ts';
import { readShop } from '../../core/read/index.ts';

/** What is to be checked. */
export interface CheckOrder {
  readonly number: number;
  readonly texts: ReadonlyMap<string, string>;
  readonly facts: Readonly<Record<string, FileFacts>>;
  readonly today: string;
}

addEventListener('message', ({ data }: MessageEvent<CheckOrder>) => {
  const { shop, diagnostics } = readShop(data.texts, (file) => data.facts[file] ?? { state: 'missing' });
  postMessage({ number: data.number, diagnostics: check(shop, diagnostics, { today: data.today }) });
});
