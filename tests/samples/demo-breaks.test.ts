import { resolve } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { check, READ_FAULTS, RULES } from '../../src/core/check/index.ts';
import type { FileFacts } from '../../src/core/model/index.ts';
import { readShop } from '../../src/core/read/index.ts';
import { loadShop } from '../../src/node/files/index.ts';
import { edit } from '../support/edit.ts';
import { BREAKS, type Break } from './demo-breaks.ts';

const TODAY = '2026-11-25';
let texts: ReadonlyMap<string, string>;
const facts = new Map<string, FileFacts>();

beforeAll(async () => {
  const loaded = await loadShop(resolve(import.meta.dirname, '../../content'));
  texts = loaded.texts;
  for (const { files, captions } of loaded.shop.recordings)
    for (const { file, facts: known } of [...files, ...(captions ? [captions] : [])])
      facts.set(
        file,
        known.state === 'missing'
          ? file.endsWith('.vtt')
            ? { state: 'text', text: 'WEBVTT\n' }
            : { state: 'media', media: { duration: 4000 * 705_600_000, framesPerSecond: 30000 / 1001 } }
          : known,
      );
  // The demo has no sound recorder.
  facts.set('media/recorder.wav', { state: 'media', media: { duration: 4000 * 705_600_000 } });
});

/** Captions of the demo, where a break brings none of its own. */
const CAPTIONS = 'media/chain.vtt';

function told(all: ReadonlyMap<string, string>, heard?: Break['heard']) {
  const { shop, diagnostics } = readShop(all, (file) => {
    const text = all.get(file);
    return text === undefined ? (facts.get(file) ?? { state: 'missing' }) : { state: 'text', text };
  });
  const speech =
    heard &&
    new Map([
      ['chain', { by: 'loudness' as const, stretches: edit(heard.map(([start, end]) => `${start}-${end}`).join(' ')) }],
    ]);
  return check(shop, diagnostics, { today: TODAY, ...(speech && { speech }) });
}

/** The demo with one thing broken. */
function broken({ file, from, to, captions, toldIn }: Break): Map<string, string> {
  const text = texts.get(file) ?? '';
  // A translation would say of each change to its lesson that it no longer is the same.
  const others = [...texts].filter(([name]) => !name.endsWith('.es.mdx') || name === file);
  if (captions !== undefined)
    return new Map([...others, [file, text.replace(from, () => to)], [toldIn ?? CAPTIONS, captions]]);
  expect(text, `${file} holds the text to be changed`).toContain(from);
  return new Map([...others, [file, text.replace(from, () => to)]]);
}

function lineOf(text: string, wanted: string): number {
  const at = text.indexOf(wanted);
  expect(at, `"${wanted}" is there to be told`).toBeGreaterThanOrEqual(0);
  return text.slice(0, at).split('\n').length;
}

test('the demo is sound', () => {
  expect(told(texts).map(({ rule, place, message }) => `${place.file}:${place.start.line} ${rule} ${message}`)).toEqual(
    [],
  );
});

test('every rule has a way to break the demo', () => {
  // These need other footage than the demo's, which says all its values aloud, or whole files of another kind; their own samples hold them.
  const others = [
    'collection-not-kept',
    'collection-not-taken',
    'shared-value-unchecked',
    'spec-withdrawn',
    'withdrawn-value-said',
    'edit-over-gap',
    'sound-ends-early',
    'file-missing',
    'file-empty',
    'file-encoding',
    'file-unreadable',
  ];
  expect(new Set([...BREAKS.map(({ rule }) => rule), ...others])).toEqual(
    new Set([...RULES, ...READ_FAULTS].map(({ id }) => id)),
  );
});

test('a gap in captions is none where the sound was looked through and nobody is heard; nor without, where it is short', () => {
  const [silent, short] = BREAKS.filter(({ rule }) => rule === 'caption-gap');
  if (!silent || !short) throw new Error('there are two breaks of caption-gap');
  expect(told(broken(silent), [[100, 200]])).toEqual([]);
  expect(told(broken(short))).toEqual([]);
});

describe.each(BREAKS)('$rule', (change) => {
  test('breaking the demo so tells exactly this, at the right line', () => {
    const all = broken(change);
    const diagnostics = told(all, change.heard);
    const file = change.toldIn ?? (change.captions === undefined ? change.file : CAPTIONS);
    const line = lineOf(all.get(file) ?? '', change.toldAt ?? change.to);
    expect(
      [...new Set(diagnostics.map(({ rule }) => rule))],
      diagnostics.map(({ message }) => message).join('\n'),
    ).toEqual([change.rule]);
    const lines = diagnostics.map(({ place }) => `${place.file}:${place.start.line}`);
    expect(lines).toContain(`${file}:${line}`);
    expect(new Set(lines).size).toBe(1);
  });
});
