import { placeOf, type Shop, type ShopClass } from '../../model/index.ts';
import { listWords } from '../../read/index.ts';
import { rule } from '../rule.ts';
import { both, lesson, type Sample } from '../sample.ts';
import { passagesOf } from './find.ts';

type Block = ShopClass['blocks'][number];

const DANGER = lesson(
  '## Wheel\n<Cue at="0:00:20" />\n\n### Crack\n<Cue at="0:00:30" />\n<Danger>A bike that falls off its stand kills.</Danger>',
);
const block = (id: string, kind: string, more = '') =>
  `  - {id: ${id}, title: ${id}, kind: ${kind}, must: true, ${more}treatments: [{id: a, minutes: 10, worth: 10}]}\n`;
const hands = block('try', 'hands-on', 'about: {lesson: chain, chapter: wheel}, ');
const safety = block('safety', 'safety');
const classOf = (...blocks: string[]): Sample =>
  both(DANGER, {
    files: {
      'classes/saturday.yaml': `title: Chain\ndate: 2026-12-05\nstarts: "10:00"\nslot: "2:00"\nblocks:\n${blocks.join('')}`,
    },
  });

export default rule({
  id: 'hands-on-before-safety',
  severity: 'error',
  why: 'Anybody who picks up the tool before the safety talk has not been told what can kill.',
  bad: classOf(hands, safety),
  says: '6:10 "try" has no safety block before it, and its lesson chain tells of a danger',
  good: classOf(safety, hands),

  *check(shop) {
    for (const shopClass of shop.classes)
      for (const [index, block] of shopClass.blocks.entries()) {
        if (block.leaveOut) continue;
        if (block.kind !== 'hands-on' && !block.treatments.some(({ stations }) => stations)) continue;
        const lessons = dangerousLessons(shop, block);
        if (lessons.length === 0 || isBriefed(shopClass, index)) continue;
        const optional = shopClass.blocks.some((other) => other.kind === 'safety' && !other.must);
        yield {
          place: placeOf(shopClass, 'blocks', index, 'id'),
          message: `"${block.title}" has no safety block before it, and its lesson ${listWords(lessons)} tells of a danger`,
          help: optional
            ? 'put a block of kind safety before it, and write must: true there, so that no plan leaves it out'
            : 'put a block of kind safety with must: true before it',
        };
      }
  },
});

function dangerousLessons({ lessons }: Shop, { about, treatments }: Block): string[] {
  const named = new Set([about?.lesson, ...treatments.map(({ show }) => show?.lesson)]);
  return lessons
    .filter((lesson) => named.has(lesson.id))
    .filter((lesson) => passagesOf(lesson).some(({ signals }) => signals.some(({ word }) => word === 'danger')))
    .map(({ id }) => id);
}

/** True when a safety block is given whenever this one is, and always before it. */
function isBriefed({ blocks }: ShopClass, index: number): boolean {
  const block = blocks[index];
  if (!block) return false;
  return blocks.some((safety, at) => {
    if (safety.kind !== 'safety' || at === index || safety.beside === block.id || block.beside === safety.id)
      return false;
    const surelyGiven =
      !safety.leaveOut && (safety.must || block.needs?.includes(safety.id) || block.together?.includes(safety.id));
    const written = at < index && !safety.anywhere && !block.anywhere;
    return surelyGiven === true && (written || comesAfter(blocks, block, safety.id));
  });
}

/** True when a chain of `after` and `before` puts the block behind the one of this id. */
function comesAfter(blocks: readonly Block[], block: Block, id: string, seen = new Set<string>()): boolean {
  if (seen.has(block.id)) return false;
  seen.add(block.id);
  return blocks
    .filter((other) => block.after?.includes(other.id) || other.before?.includes(block.id))
    .some((other) => other.id === id || comesAfter(blocks, other, id, seen));
}
