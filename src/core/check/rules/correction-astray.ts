import { placeOf } from '../../model/index.ts';
import { didYouMean } from '../../read/index.ts';
import { rule } from '../rule.ts';
import { both, SOUND } from '../sample.ts';
import { machineOf, passagesOf } from './find.ts';

const correction = (step: string) => ({
  files: {
    'corrections/chain.yaml': `corrections:\n  - step: ${step}\n    at: "0:06:30"\n    spec: axle-nut\n    said: eighty newton metres\n    on: 2026-11-20\n`,
  },
});

export default rule({
  id: 'correction-astray',
  severity: 'error',
  why: 'A correction that belongs to nothing is shown to nobody.',
  bad: correction('tighten-nut'),
  says: '2:11 no step "tighten-nut" in the lesson chain',
  good: both(SOUND, correction('tighten-the-nut')),

  *check({ corrections, lessons, broken }) {
    const ids = new Set(lessons.map(({ id }) => id));
    for (const each of corrections)
      if (!ids.has(each.lesson) && !broken.has(each.lesson))
        yield {
          place: placeOf(each),
          message: `no lesson "${each.lesson}" for this correction`,
          help: 'the file is named for the lesson: corrections/<lesson>.yaml',
        };
  },

  *lesson(shop) {
    for (const each of shop.corrections) {
      const lesson = shop.lessons.find(({ id }) => id === each.lesson);
      if (!lesson) continue;
      const steps = passagesOf(lesson).map(({ id }) => id);
      if (!steps.includes(each.step))
        yield {
          place: placeOf(each, 'step'),
          message: `no step "${each.step}" in the lesson ${lesson.id}`,
          help: didYouMean(each.step, steps),
        };
      const ids = machineOf(shop, lesson)?.specs.map(({ id }) => id) ?? [];
      if (!ids.includes(each.spec) && ids.length > 0 && !shop.broken.has(each.spec))
        yield {
          place: placeOf(each, 'spec'),
          message: `no spec "${each.spec}" for ${lesson.machine}`,
          help: didYouMean(each.spec, ids),
        };
    }
  },
});
