import { type Place, placeOf, type Shop } from '../../model/index.ts';
import { didYouMean } from '../../read/index.ts';
import { type Finding, rule } from '../rule.ts';
import { replaceIn, SOUND } from '../sample.ts';

interface Part {
  readonly lesson: string;
  readonly chapter?: string | undefined;
  readonly from?: string | undefined;
  readonly to?: string | undefined;
}

export default rule({
  id: 'class-part-unknown',
  severity: 'error',
  why: 'The class would plan time for something that does not exist.',
  bad: replaceIn('classes/saturday.yaml', 'chapter: rear-wheel', 'chapter: rear-weel'),
  says: '16:52 no chapter "rear-weel" in the lesson chain',
  good: SOUND,

  *check(shop) {
    for (const shopClass of shop.classes)
      for (const [index, block] of shopClass.blocks.entries()) {
        if (block.about) yield* unknown(shop, block.about, (key) => placeOf(shopClass, 'blocks', index, 'about', key));
        for (const [at, { show }] of block.treatments.entries())
          if (show)
            yield* unknown(shop, show, (key) => placeOf(shopClass, 'blocks', index, 'treatments', at, 'show', key));
      }
  },
});

function* unknown({ lessons, broken }: Shop, part: Part, place: (key: string) => Place): Generator<Finding> {
  const lesson = lessons.find(({ id }) => id === part.lesson);
  if (!lesson) {
    if (!broken.has(part.lesson))
      yield {
        place: place('lesson'),
        message: `no lesson "${part.lesson}"`,
        help: didYouMean(
          part.lesson,
          lessons.map(({ id }) => id),
        ),
      };
    return;
  }
  // Its headings are not what was meant; what is wrong with them is told there.
  if (broken.has(part.lesson)) return;
  const chapters = lesson.chapters.filter(({ id }) => part.chapter === undefined || id === part.chapter);
  if (chapters.length === 0 && part.chapter !== undefined)
    yield {
      place: place('chapter'),
      message: `no chapter "${part.chapter}" in the lesson ${lesson.id}`,
      help: didYouMean(
        part.chapter,
        lesson.chapters.map(({ id }) => id),
      ),
    };
  const steps = chapters.flatMap((chapter) => chapter.steps.map(({ id }) => id));
  for (const key of ['from', 'to'] as const) {
    const step = part[key];
    if (chapters.length > 0 && step !== undefined && !steps.includes(step))
      yield {
        place: place(key),
        message: `no step "${step}" in ${part.chapter ?? `the lesson ${lesson.id}`}`,
        help: didYouMean(step, steps),
      };
  }
  const [first, last] = [part.from, part.to].map((step) => (step === undefined ? -1 : steps.indexOf(step)));
  if (first !== undefined && last !== undefined && last !== -1 && last < first)
    yield {
      place: place('from'),
      message: `the first step, "${part.from}", comes after the last one, "${part.to}"`,
      help: 'write the earlier step under from:, the later one under to:',
    };
}
