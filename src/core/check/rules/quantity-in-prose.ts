import type { Place, Prose } from '../../model/index.ts';
import { type Heard, hear } from '../../spec/index.ts';
import { rule } from '../rule.ts';
import { lesson, SOUND } from '../sample.ts';
import { passagesOf } from './find.ts';

export default rule({
  id: 'quantity-in-prose',
  severity: 'warning',
  why: 'A value written by hand stays as it is when the table changes, and shows neither tolerance nor source.',
  bad: lesson('## Wheel\n<Cue at="0:00:20" />\n\n### Tighten\n<Cue at="0:00:30" />\n\nGo to 98 newton metres.'),
  says: '12:7 "98 newton metres" is a torque written by hand',
  good: SOUND,

  *check({ lessons }) {
    for (const each of lessons)
      for (const prose of [...each.intro, ...passagesOf(each).flatMap((passage) => passage.prose)])
        for (const heard of hear(prose.text))
          if (isSetting(heard))
            yield {
              place: within(prose, heard),
              message: `"${heard.text}" is a ${heard.kind.replaceAll('-', ' ')} written by hand`,
              help: 'cite a row of the spec table with <Spec of="…" />, or leave the number out',
            };
  },
});

/** Turns by hand and a wait of seconds or minutes tell how to move, not what to set. */
function isSetting({ unit, kind }: Heard): boolean {
  return unit !== 'turn' && !(kind === 'time' && (unit === 's' || unit === 'min'));
}

/** The place of some words in a run of prose. */
function within({ text, place }: Prose, { start, end }: Heard): Place {
  const point = (at: number) => {
    const lines = text.slice(0, at).split('\n');
    const column = (lines.at(-1)?.length ?? 0) + (lines.length === 1 ? place.start.column : 1);
    return { line: place.start.line + lines.length - 1, column, offset: place.start.offset + at };
  };
  return { file: place.file, start: point(start), end: point(end) };
}
