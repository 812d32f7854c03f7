import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { sumOf } from '../../../src/node/files/file-sums.ts';
import { bytesAsTheyWere, ChangedMeanwhile, TextsAsTheyWere } from '../../../src/node/files/texts-as-they-were.ts';

/** Two texts, of which the second is read when it is asked for. */
function texts() {
  const asked: string[] = [];
  const read = (file: string) => {
    asked.push(file);
    return 'kit';
  };
  const some = new Map([
    ['shop.yaml', 'shop'],
    ['kit.yaml', ''],
  ]);
  return { asked, own: new TextsAsTheyWere(some, new Set(['kit.yaml']), read) };
}

test('a text that has not changed is read once, and only when it is asked for', () => {
  const { asked, own } = texts();
  expect([...own.keys()]).toEqual(['shop.yaml', 'kit.yaml']);
  expect([own.get('shop.yaml'), asked]).toEqual(['shop', []]);
  expect([own.get('kit.yaml'), own.get('kit.yaml'), asked]).toEqual(['kit', 'kit', ['kit.yaml']]);
});

test.each([
  ['one by one', (own: TextsAsTheyWere) => [...own].map(([, text]) => text)],
  ['as values', (own: TextsAsTheyWere) => [...own.values()]],
  [
    'by a walk',
    (own: TextsAsTheyWere) => {
      const found: string[] = [];
      own.forEach((text) => {
        found.push(text);
      });
      return found;
    },
  ],
])('whoever takes them all, %s, has none of them empty', (_how, all) => {
  expect(all(texts().own)).toEqual(['shop', 'kit']);
});

test('a file that has changed since, or is gone, is told', () => {
  const content = mkdtempSync(join(tmpdir(), 'liftside-texts-'));
  try {
    writeFileSync(join(content, 'kit.yaml'), 'tools: []\n');
    expect(bytesAsTheyWere(content, 'kit.yaml', sumOf('tools: []\n')).toString()).toBe('tools: []\n');
    expect(() => bytesAsTheyWere(content, 'kit.yaml', sumOf('tools: [x]\n'))).toThrow(ChangedMeanwhile);
    expect(() => bytesAsTheyWere(content, 'words.yaml', sumOf(''))).toThrow(ChangedMeanwhile);
    expect(() => bytesAsTheyWere(content, '../out.yaml', sumOf(''))).toThrow(ChangedMeanwhile);
  } finally {
    rmSync(content, { recursive: true });
  }
});
