import { listTexts } from './texts/catalogue.ts';
import { FEWEST_WORDS, median, readability } from './texts/readability.ts';

// npm run readability [-- COUNT]: how easily the texts of the program are read (Flesch 1948), by where somebody meets
// them, and the hardest twenty.

const count = Number(process.argv[2] ?? 20);
/** Words that are looked for in what people say and write, and are shown to nobody. */
const LISTS = /^src\/core\/(?:heard\/|spec\/units\.ts|search\/search-words\.ts)/;
const judged = listTexts()
  .filter(({ files }) => !files.every((file) => LISTS.test(file)))
  .map((listed) => ({ ...listed, ...readability(listed.text) }))
  .filter(({ words }) => words >= FEWEST_WORDS)
  .toSorted((a, b) => a.ease - b.ease);
const sections = [...new Set(judged.map(({ section }) => section))];
console.log(
  `${judged.length} texts of ${FEWEST_WORDS} words or more; Flesch reading ease (1948), 60 to 70 is plain English`,
);
for (const name of [...sections, 'all']) {
  const eases = judged.filter(({ section }) => name === 'all' || section === name).map(({ ease }) => ease);
  const hard = eases.filter((ease) => ease < 50).length;
  console.log(
    `${name.padEnd(14)} ${String(eases.length).padStart(5)} texts   median ${median(eases).toFixed(0).padStart(3)}   ${((hard / eases.length) * 100).toFixed(0).padStart(3)} % below 50`,
  );
}
console.log(`\nthe hardest ${count}`);
for (const { ease, text, files } of judged.slice(0, count))
  console.log(`${ease.toFixed(0).padStart(4)}  ${text.replaceAll('\n', ' ')}\n      ${files[0]}`);
