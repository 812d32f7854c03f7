import { blockNeeds } from '../../fit/index.ts';
import { type Kit, type KitGroup, placeOf, type Shop, type ShopClass } from '../../model/index.ts';
import { listWords, plural } from '../../read/index.ts';
import { type Finding, rule } from '../rule.ts';
import { type Sample, SOUND_SHOP } from '../sample.ts';

const KEY = { tool: 'tools', part: 'parts', supply: 'supplies', protective: 'protective' } as const;

const handsOn = (bars: number): Sample => ({
  files: {
    'kit.yaml': (SOUND_SHOP['kit.yaml'] ?? '').replace('Breaker bar\n', `Breaker bar\n    count: ${bars}\n`),
    'classes/saturday.yaml': `title: Chain\ndate: 2026-12-05\nstarts: "10:00"\nslot: "2:00"\nattendees: 4
blocks:
  - id: crack
    title: Crack the nut
    kind: hands-on
    about: {lesson: chain, from: crack-the-nut, to: crack-the-nut}
    treatments: [{id: a, worth: 10, stations: {count: 2, group: 2, minutes: 10}}]
`,
  },
});

export default rule({
  id: 'stock-short',
  severity: 'warning',
  why: 'Somebody stands at a bench without the tool, or works without what protects them.',
  bad: handsOn(1),
  says: '7:5 "Crack the nut" needs 2 of Breaker bar at 2 stations, the shop has 1',
  good: handsOn(2),

  *check(shop) {
    for (const shopClass of shop.classes) {
      const needs = shopClass.blocks.map((_, index) => mostNeeded(shop, shopClass, index));
      yield* lentAndReturned(shop.kit, shopClass, needs);
      yield* partsShort(shop.kit, shopClass, needs);
    }
  },
});

/** What a block needs in the treatment that needs most of each thing, by `group id`. */
type Needs = ReadonlyMap<string, number>;

function mostNeeded({ lessons }: Shop, shopClass: ShopClass, index: number): Needs {
  const most = new Map<string, number>();
  const block = shopClass.blocks[index];
  if (!block || block.leaveOut) return most;
  const given = block.treatments.filter(({ id }) => id === block.give);
  for (const { id } of given.length > 0 ? given : block.treatments)
    for (const [key, count] of blockNeeds(shopClass, index, id, lessons))
      most.set(key, Math.max(most.get(key) ?? 0, count));
  return most;
}

/** Tools and protective equipment go from block to block: what counts is the most at one time, told where it is needed. */
function* lentAndReturned(kit: Kit, shopClass: ShopClass, needs: readonly Needs[]): Generator<Finding> {
  const most = new Map<string, { index: number; count: number }>();
  for (const [index, own] of needs.entries())
    for (const [key, count] of own) {
      if (key.startsWith('part ')) continue;
      const id = shopClass.blocks[index]?.id;
      const besides = shopClass.blocks.flatMap(({ beside }, at) => (beside === id ? [needs[at]?.get(key) ?? 0] : []));
      const atOnce = count + besides.reduce((sum, more) => sum + more, 0);
      if (atOnce > (most.get(key)?.count ?? 0)) most.set(key, { index, count: atOnce });
    }
  const short = [...most].flatMap(([key, { index, count }]) => {
    const stock = stockOf(kit, key);
    return stock && count > stock.have ? [{ ...stock, index, count }] : [];
  });
  for (const [index, block] of shopClass.blocks.entries()) {
    const own = short.filter((one) => one.index === index);
    for (const worn of [true, false]) {
      const those = own.filter(({ group }) => (group === 'protective') === worn);
      yield* shortAt(shopClass, block, index, those);
    }
  }
}

type Short = NonNullable<ReturnType<typeof stockOf>> & { readonly count: number };

/** What a block is short of, in one finding: too many people are one cause, however many things they need. */
function* shortAt(
  shopClass: ShopClass,
  block: ShopClass['blocks'][number],
  index: number,
  short: readonly Short[],
): Generator<Finding> {
  const [first] = short;
  if (!first) return;
  const stations = Math.max(0, ...block.treatments.map((treatment) => treatment.stations?.count ?? 0));
  const attendees = shopClass.attendees ?? shopClass.capacity;
  const whom =
    first.group === 'protective' && attendees !== undefined
      ? ` for ${plural(attendees, 'attendee')}`
      : stations > 0
        ? ` at ${plural(stations, 'station')}`
        : '';
  const needed = listWords(short.map(({ count, title }) => `${count} of ${title}`));
  const more = listWords(
    short.map(({ count, have, title }) => `${count - have} more${short.length > 1 ? ` of ${title}` : ''}`),
  );
  yield {
    place: placeOf(shopClass, 'blocks', index),
    builtOn: [placeOf(shopClass, 'attendees')],
    ...(first.group === 'protective' && { severity: 'error' as const }),
    message: `"${block.title}" needs ${needed}${whom}, the shop has ${listWords(short.map(({ have }) => String(have)))}`,
    help: `get ${more}, or give the block to fewer at a time`,
    see: { place: first.place, note: 'the stock' },
  };
}

/** Parts are used up: their sum over the class counts, told at the block that finds too few. */
function* partsShort(kit: Kit, shopClass: ShopClass, needs: readonly Needs[]): Generator<Finding> {
  for (const key of new Set(needs.flatMap((own) => [...own.keys()].filter((one) => one.startsWith('part '))))) {
    const stock = stockOf(kit, key);
    const count = needs.reduce((sum, own) => sum + (own.get(key) ?? 0), 0);
    if (!stock || count <= stock.have) continue;
    let left = stock.have;
    const short = needs.findIndex((own) => {
      left -= own.get(key) ?? 0;
      return left < 0;
    });
    yield {
      place: placeOf(shopClass, 'blocks', short),
      builtOn: [placeOf(shopClass, 'attendees')],
      message: `by "${shopClass.blocks[short]?.title}" the class has used up the ${stock.have} of ${stock.title} that the shop has; all blocks together need ${count}`,
      help: `get ${count - stock.have} more, or give a block in a way that uses fewer`,
      see: { place: stock.place, note: 'the stock' },
    };
  }
}

function stockOf(kit: Kit, key: string) {
  const [group, id = ''] = key.split(' ') as [KitGroup, string];
  const entry: { title: string; count?: number | undefined } | undefined = kit[KEY[group]]?.[id];
  if (entry?.count === undefined) return undefined;
  return { group, title: entry.title, have: entry.count, place: placeOf(kit, KEY[group], id, 'count') };
}
