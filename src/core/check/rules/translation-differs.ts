import { translationFaults } from '../../programme/index.ts';
import { rule } from '../rule.ts';
import { SOUND_SHOP } from '../sample.ts';
import { measuresAstray } from '../translated-captions.ts';

const LESSON = SOUND_SHOP['lessons/chain.mdx'] ?? '';

/** The lesson of the sound small shop once more, its first step at a time of its own. */
const inSpanish = (at: string) => ({
  files: {
    'shop.yaml': `${SOUND_SHOP['shop.yaml']}languages: [en, es]\n`,
    'lessons/chain.es.mdx': LESSON.replace('0:00:30', at),
  },
});

export default rule({
  id: 'translation-differs',
  severity: 'warning',
  why: 'A step is the same job in every language: the same moment of the film, the same values, the same tools.',
  bad: inSpanish('0:00:31'),
  says: '10:1 "Crack the nut" differs from "Crack the nut" in the cue',
  good: inSpanish('0:00:30'),

  *lesson(shop) {
    for (const { lesson: translated } of shop.translations) {
      const lesson = shop.lessons.find(({ id }) => id === translated.id);
      if (!lesson) continue;
      for (const { place, message } of translationFaults(lesson, translated))
        yield {
          place,
          message,
          help: `a translation changes words only: make it as in ${lesson.origin.place.file}`,
          see: { place: lesson.origin.place, note: 'the lesson it translates' },
        };
    }
  },

  *recording({ recordings }) {
    for (const recording of recordings) yield* measuresAstray(recording);
  },
});
