import { placeOf } from '../../model/index.ts';
import { didYouMean } from '../../read/index.ts';
import { rule } from '../rule.ts';
import { replaceIn, SOUND } from '../sample.ts';

const LISTS = ['after', 'before', 'needs', 'together'] as const;

export default rule({
  id: 'class-block-unknown',
  severity: 'error',
  why: 'A demand on a block that does not exist is never kept, and nobody notices.',
  bad: replaceIn('classes/saturday.yaml', '    kind: screen\n', '    kind: screen\n    after: [welcom]\n'),
  says: '15:13 no block "welcom" in this class',
  good: SOUND,

  *around({ classes, actuals, broken }) {
    for (const shopClass of classes) {
      const ids = shopClass.blocks.map(({ id }) => id);
      for (const [index, block] of shopClass.blocks.entries()) {
        for (const key of LISTS)
          for (const [at, id] of (block[key] ?? []).entries())
            if (!ids.includes(id) && !broken.has(id))
              yield {
                place: placeOf(shopClass, 'blocks', index, key, at),
                message: `no block "${id}" in this class`,
                help: didYouMean(id, ids),
              };
        if (block.beside !== undefined && !ids.includes(block.beside) && !broken.has(block.beside))
          yield {
            place: placeOf(shopClass, 'blocks', index, 'beside'),
            message: `no block "${block.beside}" in this class`,
            help: didYouMean(block.beside, ids),
          };
      }
    }
    for (const actual of actuals) {
      const shopClass = classes.find(({ id }) => id === actual.id);
      if (!shopClass) continue;
      const ids = shopClass.blocks.map(({ id }) => id);
      for (const [index, { id }] of actual.blocks.entries())
        if (!ids.includes(id))
          yield {
            place: placeOf(actual, 'blocks', index, 'id'),
            message: `no block "${id}" in the class ${actual.id}`,
            help: didYouMean(id, ids),
          };
    }
  },
});
