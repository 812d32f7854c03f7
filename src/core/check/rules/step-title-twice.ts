import { rule } from '../rule.ts';
import { lesson } from '../sample.ts';

const second = (title: string) =>
  lesson(
    `## Wheel\n<Cue at="0:00:20" />\n\n### Seat the clip\n<Cue at="0:00:30" />\nPush.\n\n### ${title}\n<Cue at="0:01:30" />\nPush.`,
  );

export default rule({
  id: 'step-title-twice',
  severity: 'warning',
  why: 'In the step index and on the run sheet nobody can tell them apart.',
  bad: second('Seat the clip'),
  says: '13:1 two steps of "Wheel" are called "Seat the clip"',
  good: second('Seat the second clip'),

  *lesson({ lessons }) {
    for (const { chapters } of lessons)
      for (const { title: chapter, steps } of chapters)
        for (const [index, { title, place }] of steps.entries()) {
          const first = steps.slice(0, index).find((other) => other.title.toLowerCase() === title.toLowerCase());
          if (first)
            yield {
              place,
              message: `two steps of "${chapter}" are called "${title}"`,
              help: 'say in one of the titles what is different there',
              see: { place: first.place, note: 'the first one' },
            };
        }
  },
});
