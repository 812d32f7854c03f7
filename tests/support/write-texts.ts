import { globSync, readFileSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { LOCALES, listTexts, renewed, templateOf } from './texts/catalogue.ts';

// npm run texts: lists every text of the program for translators, and brings each language up to it.
const texts = listTexts();
writeFileSync(resolve(LOCALES, 'en.pot'), templateOf(texts));
console.log(
  `wrote src/locales/en.pot: ${texts.length} texts, ${texts.filter(({ said }) => said).length} said by pages`,
);
for (const file of globSync('*.po', { cwd: LOCALES })) {
  const path = resolve(LOCALES, file);
  const text = renewed(readFileSync(path, 'utf8'), texts);
  writeFileSync(path, text);
  const open = text
    .split('\n\n')
    .filter((entry) => /^msgstr(?:\[\d\])? ""$/m.test(entry) && !/^msgid ""$/m.test(entry));
  console.log(`wrote src/locales/${file}: ${open.length} texts wait for a translation`);
}
process.exit(0);
