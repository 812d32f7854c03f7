import { placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { replaceIn, SOUND } from '../sample.ts';

export default rule({
  id: 'class-block-twice',
  severity: 'error',
  why: 'Whatever names the block could mean either.',
  bad: replaceIn('classes/saturday.yaml', '  - id: wheel\n', '  - id: welcome\n'),
  says: '12:9 the block "welcome" is written twice',
  good: SOUND,

  *around({ classes }) {
    for (const shopClass of classes)
      for (const [index, { id }] of shopClass.blocks.entries()) {
        const first = shopClass.blocks.findIndex((block) => block.id === id);
        if (first < index)
          yield {
            place: placeOf(shopClass, 'blocks', index, 'id'),
            message: `the block "${id}" is written twice`,
            help: 'give one of them another id',
            see: { place: placeOf(shopClass, 'blocks', first, 'id'), note: 'the first one' },
          };
      }
  },
});
