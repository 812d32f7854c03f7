import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { po } from 'gettext-parser';
import { describe, expect, test } from 'vitest';
import { placesIn } from '../src/core/locale/index.ts';
import { LOCALES, listTexts, renewed, templateOf } from './support/texts/catalogue.ts';
import { textsIn } from './support/texts/collect.ts';

const texts = listTexts();
const languages = globSync('*.po', { cwd: LOCALES });
const read = (file: string) => readFileSync(join(LOCALES, file), 'utf8');

test('src/locales/en.pot lists every text of the program: type npm run texts when this fails', () => {
  expect(texts.length).toBeGreaterThan(3000);
  expect(read('en.pot')).toBe(templateOf(texts));
});

test('there is Spanish', () => expect(languages).toContain('es.po'));

describe.each(languages)('%s', (file) => {
  const entries = Object.values(po.parse(read(file)).translations[''] ?? {}).filter(({ msgid }) => msgid !== '');

  test('holds what pages say in their own language, no more and no less: type npm run texts', () => {
    expect(read(file)).toBe(renewed(read(file), texts));
    const said = texts.filter(({ said }) => said).map(({ text }) => text);
    expect(entries.map(({ msgid }) => msgid).toSorted()).toEqual(said.toSorted());
  });

  test('says every one of them', () => {
    expect(entries.filter(({ msgstr }) => msgstr.some((form) => form.trim() === '')).map(({ msgid }) => msgid)).toEqual(
      [],
    );
  });

  test('fills in the same things as the English', () => {
    const wrong = entries.filter(({ msgid, msgid_plural = msgid, msgstr }) => {
      const wanted = [...new Set([...placesIn(msgid), ...placesIn(msgid_plural)])].toSorted().toString();
      // The form for one thing may do without its number.
      return msgstr.some((form, index) => {
        const has = [...new Set(placesIn(form))].toString();
        return has !== wanted && !(msgstr.length > 1 && index === 0 && has === placesIn(msgid).toString());
      });
    });
    expect(wrong.map(({ msgid }) => msgid)).toEqual([]);
  });

  test('keeps the space before and after a text, and figures', () => {
    const edges = (text: string) => [/^\s/.test(text), /\s$/.test(text)].toString();
    expect(
      entries.filter(({ msgid, msgstr }) => edges(msgid) !== edges(msgstr[0] ?? '')).map(({ msgid }) => msgid),
    ).toEqual([]);
    const figures = (text: string) => (text.match(/\d+/g) ?? []).toString();
    expect(
      entries.filter(({ msgid, msgstr }) => figures(msgid) !== figures(msgstr[0] ?? '')).map(({ msgid }) => msgid),
    ).toEqual([]);
  });
});

/** Pages and components for attendees; those for whoever leads a class are made in one language. */
const LEADER = /run-sheet|kit-list/;

test('no words stand in a page without being said in its language', () => {
  const open = globSync('src/{pages,layouts,components}/**/*.astro')
    .filter((file) => !LEADER.test(file))
    .flatMap((file) =>
      textsIn(file, readFileSync(file, 'utf8'))
        .filter(
          ({ said, text }) => !said && !/^\{\w+\}\W*(?:\{\w+\}\W*)*$|^there is no |^M\{/.test(text) && !OPEN.has(text),
        )
        .map(({ text }) => `${file}: ${text}`),
    );
  expect(open).toEqual([]);
});

/** Symbols, the same in every language. */
const OPEN = new Set(['km', 'mi']);

describe('texts of a file', () => {
  const found = (code: string, file = 'a.ts') =>
    textsIn(file, code).map(({ text, said }) => (said ? `said ${text}` : text));

  test('what is said in the language of a page, with its form for more', () => {
    expect(textsIn('a.ts', "t('Find'); plural(n, '{n} step', '{n} steps'); const X = english('Tools');")).toEqual([
      { text: 'Find', said: true },
      { text: '{n} step', more: '{n} steps', said: true },
      { text: 'Tools', said: true },
    ]);
  });
  test('what else reads like words, with names for what is filled in', () => {
    expect(found("const m = `the wrench reads from ${range.min} to ${range.max}`; const s = 'Stop';")).toEqual([
      'the wrench reads from {min} to {max}',
      'Stop',
    ]);
  });
  test('no names, selectors, styles, types and comparisons', () => {
    const code = `import x from 'some where else';
      type Kind = 'two words';
      document.querySelector('main p.lead'); if (kind === 'two words') el.className = 'quiet'; path = 'a/b/c.ts';
      style = 'color: red; margin: 0;'; list['two words'] = 1;`;
    expect(found(code)).toEqual([]);
  });
  test('words between tags and in attributes of a page', () => {
    const page = '---\nconst a = 1;\n---\n<p class="two words" aria-label="close">ok then {a} <b>go</b></p>';
    expect(found(page, 'a.astro')).toEqual(['close', 'ok then', 'go']);
  });
});
