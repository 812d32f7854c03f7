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

  *around({ classes }) {
    for (const shopClass of classes) {
      // What agrees with the order so far is taken; what does not is told, and nothing that follows is built on it.
      const taken: Wish[] = [];
      for (const wish of wishesOf(shopClass)) {
        const way = wayFrom(wish.second, wish.first, shopClass, taken);
        if (way) yield { place: wish.place, ...words(wish, way, shopClass) };
        else taken.push(wish);
      }
    }
  },
});

/** One block has to come before another one, as written under `after` or `before`. */
interface Wish {
  readonly first: string;
  readonly second: string;
  readonly place: Place;
}

function wishesOf(shopClass: ShopClass): Wish[] {
  const { blocks } = shopClass;
  const known = new Set(blocks.map(({ id }) => id));
  return blocks
    .flatMap((block, index) => [
      ...(block.after ?? []).map((id, at) => ({
        first: id,
        second: block.id,
        place: placeOf(shopClass, 'blocks', index, 'after', at),
      })),
      ...(block.before ?? []).map((id, at) => ({
        first: block.id,
        second: id,
        place: placeOf(shopClass, 'blocks', index, 'before', at),
      })),
    ])
    .filter(({ first, second }) => known.has(first) && known.has(second));
}

/**
 * The blocks from one to the other, each of which has to come before the next: by order written where neither may
 * stand anywhere, or by wish. The shortest such way; nothing where there is none.
 */
function wayFrom(
  start: string,
  end: string,
  { blocks }: ShopClass,
  wishes: readonly Wish[],
): readonly string[] | undefined {
  // Of two blocks with one id the first counts; that there are two is told by another rule.
  const fixed = [...new Set(blocks.flatMap(({ id, anywhere }) => (anywhere ? [] : [id])))];
  const nextTo = (id: string) => {
    const at = fixed.indexOf(id);
    return [
      ...(at === -1 ? [] : fixed.slice(at + 1)),
      ...wishes.flatMap(({ first, second }) => (first === id ? [second] : [])),
    ];
  };
  const seen = new Set([start]);
  const ways = [[start]];
  for (const way of ways) {
    const last = way.at(-1) ?? start;
    if (last === end) return way;
    for (const next of nextTo(last)) {
      if (seen.has(next)) continue;
      seen.add(next);
      ways.push([...way, next]);
    }
  }
  return undefined;
}

function words({ first, second }: Wish, way: readonly string[], { blocks }: ShopClass): Omit<Finding, 'place'> {
  const movable = blocks.filter(({ id, anywhere }) => anywhere && way.includes(id));
  if (first === second)
    return { message: `"${second}" has to come after itself`, help: 'name another block, or leave the line out' };
  if (movable.length === 0)
    return {
      message: `"${second}" stands before "${first}", but has to come after it`,
      help: 'swap the two, or write anywhere: true on the one that may move',
    };
  const order = way.map((id) => `"${id}"`).join(' before ');
  return {
    message: `"${second}" has to come after "${first}", but ${order}`,
    help: `leave out one of the after: and before: between ${way.map((id) => `"${id}"`).join(', ')}`,
  };
}
