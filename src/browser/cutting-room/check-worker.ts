import './policy.ts';
import { check } from '../../core/check/index.ts';
import { partLookup, type TrimTargets, toPlan, trimTargets } from '../../core/fit/index.ts';
import type { HeardSpeech } from '../../core/media/index.ts';
import type { Diagnostic, FileFacts, Shop } from '../../core/model/index.ts';
import { KeptReads, readShop } from '../../core/read/index.ts';

/** What is to be checked. */
export interface CheckOrder {
  readonly number: number;
  readonly texts: ReadonlyMap<string, string>;
  readonly facts: Readonly<Record<string, FileFacts>>;
  readonly today: string;
  /** Where somebody is heard, by recording that was looked through. */
  readonly speech: ReadonlyMap<string, HeardSpeech>;
}

/** What a class leaves for the chapters it shows. */
export interface Budget {
  readonly id: string;
  readonly title: string;
  readonly trim: TrimTargets;
}

/** What the checker answers. */
export interface Checked {
  readonly number: number;
  readonly diagnostics: readonly Diagnostic[];
  readonly budgets: readonly Budget[];
  /** The texts it read, to which the places of the diagnostics belong. */
  readonly texts: ReadonlyMap<string, string>;
}

function budgetsOf(shop: Shop): Budget[] {
  const parts = partLookup(shop);
  return shop.classes.flatMap((one) => {
    const { plan, unknown } = toPlan(one, parts);
    return unknown.length > 0 ? [] : [{ id: one.id, title: one.title, trim: trimTargets(plan) }];
  });
}

/** From one change to the next most of a shop stays as it is. */
const kept = new KeptReads();

addEventListener('message', ({ data }: MessageEvent<CheckOrder>) => {
  const facts = (file: string): FileFacts => {
    const typed = data.texts.get(file);
    return typed === undefined ? (data.facts[file] ?? { state: 'missing' }) : { state: 'text', text: typed };
  };
  const { shop, diagnostics } = readShop(data.texts, facts, new Map(), kept.again());
  const found = check(shop, diagnostics, { today: data.today, speech: data.speech });
  const checked: Checked = { number: data.number, diagnostics: found, budgets: budgetsOf(shop), texts: data.texts };
  postMessage(checked);
});
