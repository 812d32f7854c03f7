import type { Passage } from '../../model/index.ts';
import { printClockTime } from '../../time/index.ts';
import { type Finding, rule } from '../rule.ts';
import { lesson, SOUND } from '../sample.ts';

export default rule({
  id: 'cue-out-of-order',
  severity: 'error',
  why: 'Playing on from a step would show another one than the page says comes next.',
  bad: lesson('## Wheel\n<Cue at="0:00:20" />\n\n### Lift\n<Cue at="0:02:00" />\n\n### Turn\n<Cue at="0:01:00" />'),
  says: '13:1 the cue of "Turn" at 0:01:00 comes before that of "Lift" at 0:02:00',
  good: SOUND,

  *lesson({ lessons }) {
    for (const { chapters } of lessons) {
      yield* inOrder(chapters);
      for (const [index, chapter] of chapters.entries()) {
        const steps = chapter.steps;
        yield* inOrder(steps);
        const first = steps.find(({ cue }) => cue);
        if (first) yield* inOrder([chapter, first], true);
        const last = steps.findLast(({ cue }) => cue);
        const next = chapters[index + 1];
        if (last && next) yield* inOrder([last, next]);
      }
    }
  },
});

/** @param maySame a chapter may start with its first step */
function* inOrder(passages: readonly Passage[], maySame = false): Generator<Finding> {
  let before: Passage | undefined;
  for (const passage of passages) {
    const { cue } = passage;
    if (!cue) continue;
    const last = before?.cue?.at;
    if (before && last !== undefined && (maySame ? cue.at < last : cue.at <= last))
      yield {
        place: cue.place,
        message: `the cue of "${passage.title}" at ${printClockTime(cue.at)} comes ${cue.at === last ? 'with' : 'before'} that of "${before.title}" at ${printClockTime(last)}`,
        help: 'put chapters and steps in the order they were filmed, or correct the time',
      };
    else before = passage;
  }
}
