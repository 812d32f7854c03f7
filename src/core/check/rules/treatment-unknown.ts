import { placeOf } from '../../model/index.ts';
import { didYouMean } from '../../read/index.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';

const withTreatment = (treatment: string) =>
  replaceIn('classes/saturday.yaml', '    kind: welcome\n', `    kind: welcome\n    give: ${treatment}\n`);

export default rule({
  id: 'treatment-unknown',
  severity: 'error',
  why: 'The plan would give the block in another way than was asked for, and what it took would be learned of another.',
  bad: withTreatment('tlak'),
  says: '9:11 no treatment "tlak" of the block "welcome"',
  good: withTreatment('talk'),

  *around({ classes, actuals }) {
    for (const shopClass of classes)
      for (const [index, { id, give, treatments }] of shopClass.blocks.entries()) {
        const ids = treatments.map((one) => one.id);
        if (give !== undefined && !ids.includes(give))
          yield {
            place: placeOf(shopClass, 'blocks', index, 'give'),
            message: `no treatment "${give}" of the block "${id}"`,
            help: didYouMean(give, ids),
          };
      }
    for (const actual of actuals) {
      const blocks = classes.find(({ id }) => id === actual.id)?.blocks ?? [];
      for (const [index, { id, treatment }] of actual.blocks.entries()) {
        const ids = blocks.find((block) => block.id === id)?.treatments.map((one) => one.id);
        if (ids && treatment !== undefined && !ids.includes(treatment))
          yield {
            place: placeOf(actual, 'blocks', index, 'treatment'),
            message: `no treatment "${treatment}" of the block "${id}"`,
            help: didYouMean(treatment, ids),
          };
      }
    }
  },
});
