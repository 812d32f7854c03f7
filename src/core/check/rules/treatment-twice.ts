import { placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';

const beside = (second: string) =>
  replaceIn(
    'classes/saturday.yaml',
    '      - {id: talk, minutes: [3, 5, 8], worth: 10}\n',
    `      - {id: talk, title: Round, minutes: [3, 5, 8], worth: 10}\n      - {${second}, minutes: 3, worth: 5}\n`,
  );

export default rule({
  id: 'treatment-twice',
  severity: 'error',
  why: 'Nobody who reads the run sheet, or writes down what a block took, can tell which way is meant.',
  bad: beside('id: talk'),
  says: '12:14 the treatment "talk" is written twice in "Welcome"',
  good: beside('id: short, title: Names only'),

  *around({ classes }) {
    for (const shopClass of classes)
      for (const [index, { title: block, treatments }] of shopClass.blocks.entries())
        for (const [at, { id, title }] of treatments.entries()) {
          const earlier = treatments.slice(0, at);
          const sameId = earlier.findIndex((other) => other.id === id);
          const sameTitle =
            title === undefined ? -1 : earlier.findIndex((other) => other.title?.toLowerCase() === title.toLowerCase());
          const first = sameId === -1 ? sameTitle : sameId;
          const key = sameId === -1 ? 'title' : 'id';
          if (first !== -1)
            yield {
              place: placeOf(shopClass, 'blocks', index, 'treatments', at, key),
              message: `the treatment "${key === 'id' ? id : title}" is written twice in "${block}"`,
              help: `give one of them another ${key}, or take it away`,
              see: { place: placeOf(shopClass, 'blocks', index, 'treatments', first, key), note: 'the first one' },
            };
        }
  },
});
