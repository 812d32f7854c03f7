import { check } from '../../core/check/index.ts';
import type { Diagnostic, Shop, ShopClass } from '../../core/model/index.ts';
import type { LoadedShop } from '../files/index.ts';

/** A shop with what one class touches and nothing else, and what is wrong with just that. */
export interface DraftShop {
  readonly loaded: LoadedShop;
  /** Errors in what the class touches, one line each, `file:line: message`. */
  readonly findings: readonly string[];
}

/** What a run sheet and a kit list are made of: the class, the times of its lessons, and the kit. */
export function draftShop(loaded: LoadedShop, shopClass: ShopClass, today: string): DraftShop {
  const { shop, diagnostics } = loaded;
  const named = new Set(
    shopClass.blocks.flatMap(({ about, treatments }) => [about?.lesson, ...treatments.map(({ show }) => show?.lesson)]),
  );
  const lessons = shop.lessons.filter(({ id }) => named.has(id));
  const recordings = shop.recordings.filter(({ id }) => lessons.some(({ recording }) => recording === id));
  const touched = new Set([
    'kit.yaml',
    shopClass.origin.place.file,
    ...[...lessons, ...recordings].map(({ origin }) => origin.place.file),
    ...[...named].flatMap((id) => (id === undefined ? [] : [`lessons/${id}.mdx`])),
  ]);
  const errors = check(shop, diagnostics, { today }).filter(
    ({ severity, place }) => severity === 'error' && touched.has(place.file),
  );
  return {
    loaded: { ...loaded, shop: reduced(shop, shopClass, lessons, recordings), diagnostics: [] },
    findings: errors.map(lineOf),
  };
}

/** Lessons stay for their times and their kit, but have no pages: those would need values, which may be what is wrong. */
function reduced(shop: Shop, shopClass: ShopClass, lessons: Shop['lessons'], recordings: Shop['recordings']): Shop {
  return {
    ...shop,
    classes: [shopClass],
    lessons: lessons.map((lesson) => ({ ...lesson, draft: true })),
    recordings,
    machines: [],
    corrections: [],
    actuals: [],
    questions: [],
  };
}

function lineOf({ place, message }: Diagnostic): string {
  return `${place.file}:${place.start.line}: ${message}`;
}
