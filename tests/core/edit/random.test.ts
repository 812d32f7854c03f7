import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  addEntry,
  begin,
  COMMANDS,
  type History,
  redo,
  replaceNow,
  type Session,
  undo,
  withContent,
  writeText,
} from '../../../src/core/edit/index.ts';
import { at, LESSON, lessonText, open, RECORDING, recordingText } from './support.ts';

const RUNNABLE = COMMANDS.filter(({ run }) => run);
const LESSONS = [LESSON, LESSON.replaceAll('\n', '\r\n'), `\uFEFF${LESSON}`, LESSON.trimEnd()];
const RECORDINGS = [
  RECORDING,
  RECORDING.replaceAll('\n', '\r\n'),
  RECORDING.replace(/edit:[\s\S]*?(?=people)/, ''),
  RECORDING.replace(
    /edit:[\s\S]*?(?=people)/,
    'edit: [{in: "0:00:10", out: "0:09:00"}, {in: 0:10:00, out: 0:30:00}]\n',
  ),
  RECORDING.replace(
    'people: []',
    'angles:\n  - {id: close, file: media/close.mp4}\n  - {id: above, file: media/above.mp4}\n',
  ),
];

interface Act {
  readonly command: number;
  readonly seconds: number;
  readonly words: string;
  readonly write: boolean;
}

const acts: fc.Arbitrary<Act[]> = fc.array(
  fc.record({
    command: fc.nat(RUNNABLE.length - 1),
    seconds: fc.integer({ min: 0, max: 1800 * 25 }).map((frame) => frame / 25),
    words: fc.oneof(
      fc.constantFrom('Clean it', 'Set to <Spec of="x" />', '{', 'a # b', '*', 'Größe 10 — “gut”', '\u{1F527}'),
      fc.string({ maxLength: 12 }),
    ),
    write: fc.boolean(),
  }),
  { minLength: 1, maxLength: 6 },
);

function perform(session: Session, history: History, act: Act): { session: Session; history: History } {
  const row = RUNNABLE[act.command];
  const command = act.write && act.command % 5 === 0 ? writeText : row?.run;
  const outcome = command?.({ ...session, playhead: at(act.seconds) }, act.words);
  if (!outcome || 'refused' in outcome) return { session, history };
  const { session: next, label } = outcome;
  return { session: next, history: label ? addEntry(history, next.content, label) : replaceNow(history, next.content) };
}

// 500 sequences: undoing everything gives back the bytes, doing it again what was made.
test('undo all is the file as it was, whatever was done; redo all is the file as it became', () => {
  fc.assert(
    fc.property(fc.constantFrom(...LESSONS), fc.constantFrom(...RECORDINGS), acts, (lesson, recording, row) => {
      let session = open(recording, lesson);
      let history = begin(session.content);
      for (const act of row) ({ session, history } = perform(session, history, act));
      const made = [recordingText(session), lessonText(session)];
      const texts = ({ now }: History) => [now.texts.get('recordings/pads.yaml'), now.texts.get('lessons/pads.mdx')];
      for (let back = undo(history); back; back = undo(history)) history = back.history;
      expect(texts(history)).toEqual([recording, lesson]);
      // Read again from there, nothing is different from the first time.
      expect(withContent(session, history.now).view).toEqual(open(recording, lesson).view);
      for (let next = redo(history); next; next = redo(history)) history = next.history;
      expect(texts(history)).toEqual(made);
    }),
    { numRuns: 500 },
  );
});

test('no command ever makes a file that cannot be read, or loses a comment', () => {
  fc.assert(
    fc.property(fc.constantFrom(...LESSONS), acts, (lesson, row) => {
      let session = open(RECORDING, lesson);
      let history = begin(session.content);
      for (const act of row) {
        ({ session, history } = perform(session, history, act));
        expect(session.view.recording).toBeDefined();
        expect(session.view.lesson).toBeDefined();
        expect(recordingText(session)).toContain('# The long take\n');
        expect(recordingText(session)).toContain('# one card was enough\n');
        expect(lessonText(session)).toContain('# as on the poster');
      }
    }),
    { numRuns: 30 },
  );
});
