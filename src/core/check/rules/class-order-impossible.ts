import { type Place, placeOf, type ShopClass } from '../../model/index.ts';
import { type Finding, rule } from '../rule.ts';
import { replaceIn, SOUND } from '../sample.ts';

export default rule({
  id: 'class-order-impossible',
  severity: 'error',
  why: 'Blocks are given in the order written, so only one of the two would ever be given.',
  bad: replaceIn('classes/saturday.yaml', '    kind: welcome\n', '    kind: welcome\n    after: [wheel]\n'),
  says: '9:13 "welcome" stands before "wheel", but has to come after it',
  good: SOUND,

  *check({ classes }) {
    for (const shopClass of classes)
      for (const [index, block] of shopClass.blocks.entries()) {
        for (const [at, id] of (block.after ?? []).entries())
          yield* findReversed(shopClass, id, block.id, placeOf(shopClass, 'blocks', index, 'after', at));
        for (const [at, id] of (block.before ?? []).entries())
          yield* findReversed(shopClass, block.id, id, placeOf(shopClass, 'blocks', index, 'before', at));
      }
  },
});

/** Tells when what has to come first is written later, and neither may move. */
function* findReversed({ blocks }: ShopClass, first: string, then: string, place: Place): Generator<Finding> {
  const [a, b] = [first, then].map((id) => blocks.findIndex((block) => block.id === id));
  if (a === undefined || b === undefined || a === -1 || b === -1 || a < b) return;
  if (blocks[a]?.anywhere || blocks[b]?.anywhere) return;
  yield {
    place,
    message: `"${then}" stands before "${first}", but has to come after it`,
    help: 'swap the two, or write anywhere: true on the one that may move',
  };
}
