import { placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';

const asked = (rest: string) => ({
  files: { 'questions/saturday.yaml': `date: 2026-12-05\nquestions:\n  - words: Why no grease?\n${rest}` },
});

export default rule({
  id: 'question-unanswered',
  severity: 'info',
  why: 'Somebody went home without an answer, and the next class will ask again.',
  bad: asked(''),
  says: '3:12 asked in class and not answered: "Why no grease?"',
  good: asked('    answered: true\n'),

  *check({ questions, lessons }) {
    for (const asked of questions)
      for (const [index, { words, answered, lesson, step }] of asked.questions.entries()) {
        if (answered) continue;
        const steps = lessons
          .find(({ id }) => id === lesson)
          ?.chapters.flatMap((chapter) => [chapter, ...chapter.steps]);
        const shown = steps?.find(({ id }) => id === step);
        yield {
          place: placeOf(asked, 'questions', index, 'words'),
          message: `asked in class and not answered: "${words}"`,
          help: shown
            ? `answer it in "${shown.title}", then write answered: true beside the question`
            : 'answer it where it belongs, then write answered: true beside the question',
          ...(shown && { see: { place: shown.place, note: 'shown when it was asked' } }),
        };
      }
  },
});
