import { type Unsearched, unsearched } from '../../heard/index.ts';
import type { Place, Prose, Recording, Utterance } from '../../model/index.ts';
import { type Finding, rule } from '../rule.ts';
import { lesson, SOUND } from '../sample.ts';
import { passagesOf } from './find.ts';

export default rule({
  id: 'text-not-searched',
  severity: 'warning',
  why: 'In a text no person wrote or said, values are not looked for, and a wrong one in it goes unseen.',
  bad: lesson(
    `## Wheel\n<Cue at="0:00:20" />\n\n### Tighten\n<Cue at="0:00:30" />\n\nGo to ${'98-'.repeat(70)} newton metres.`,
  ),
  says: '12:1 no values are looked for in "98-98-98-98-98-98-98-98-…": 210 characters without a blank',
  good: SOUND,

  *lesson({ lessons }) {
    for (const each of lessons) {
      yield* inProse(each.intro);
      for (const passage of passagesOf(each)) {
        yield* findingsOf(passage.title, passage.place);
        yield* inProse(passage.prose);
        yield* inProse(passage.labels);
        for (const { why = '', place } of passage.keyPoints) yield* findingsOf(why, place);
      }
    }
  },

  *recording({ recordings }) {
    for (const recording of recordings) yield* inRecording(recording);
  },
});

function* inProse(prose: readonly Prose[]): Generator<Finding> {
  for (const { text, place } of prose) yield* findingsOf(text, place);
}

/** What is said is searched step by step; here as a whole, which no step is longer than. */
function* inRecording({ captions, shows }: Recording): Generator<Finding> {
  const cues = captions?.cues ?? [];
  const text = cues.map((cue) => cue.text).join(' ');
  for (const stretch of unsearched(text)) {
    const cue = cueAt(cues, stretch.start);
    if (cue) yield finding(text, stretch, cue.place);
  }
  for (const shown of shows) yield* findingsOf(shown.text, shown.place);
}

function cueAt(cues: readonly Utterance[], offset: number): Utterance | undefined {
  let end = 0;
  return cues.find(({ text }) => {
    end += text.length + 1;
    return offset < end;
  });
}

function* findingsOf(text: string, place: Place): Generator<Finding> {
  for (const stretch of unsearched(text)) yield finding(text, stretch, place);
}

function finding(text: string, { start, end, why }: Unsearched, place: Place): Finding {
  const words = text.slice(start, Math.min(end, start + 24));
  return {
    place,
    message: `no values are looked for in "${words}…": ${why}`,
    help: 'break the text up, or take out what was pasted into it by mistake',
  };
}
