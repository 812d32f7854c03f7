import { expect, test } from 'vitest';
import {
  answerQuestion,
  dismissQuestion,
  type EditCommand,
  type OpenQuestion,
  openQuestions,
  openSession,
  type Session,
} from '../../../src/core/edit/index.ts';
import { facts, LESSON, lessonText, RECORDING } from './support.ts';

const FILE = 'questions/saturday.yaml';
const QUESTIONS = `# Questions set aside in class.
date: 2026-12-05
questions:
  - asked: "10:41"   # during the look
    words: Why *no* <grease>?
    lesson: pads
    step: look-at-the-pads
  - {words: About another lesson, lesson: chain, step: x}
  - {words: Answered already, lesson: pads, answered: true}
  - {words: Of a step that is gone, lesson: pads, step: gone}
`;

function open(questions = QUESTIONS): Session {
  const texts = new Map([
    ['recordings/pads.yaml', RECORDING],
    ['lessons/pads.mdx', LESSON],
    [FILE, questions],
  ]);
  const desk = { recordingFile: 'recordings/pads.yaml', lessonFile: 'lessons/pads.mdx', facts: facts() };
  return openSession(desk, texts);
}

function first(session: Session): OpenQuestion {
  const [question] = openQuestions(session);
  if (!question) throw new Error('no question is open');
  return question;
}

function after(session: Session, command: EditCommand, words?: string): Session {
  const outcome = command(session, words);
  if ('refused' in outcome) throw new Error(outcome.refused);
  return outcome.session;
}

test('what was asked about this lesson and not answered is proposed, with its step where that is still there', () => {
  expect(openQuestions(open()).map(({ words, step }) => [words, step])).toEqual([
    ['Why *no* <grease>?', 'look-at-the-pads'],
    ['Of a step that is gone', undefined],
  ]);
});

test('an answer stands below the text of its step, and beside the question, in one change', () => {
  const before = open();
  const session = after(before, answerQuestion(first(before)), '  It  draws dirt. ');
  expect(lessonText(session)).toBe(
    LESSON.replace(
      'Less than a millimetre is too thin.\n',
      'Less than a millimetre is too thin.\n\n**Asked in class: Why \\*no\\* \\<grease\\>?** It draws dirt.\n',
    ),
  );
  // The writer's comment stays.
  expect(session.content.texts.get(FILE)).toContain('asked: "10:41"   # during the look');
  expect(session.content.texts.get(FILE)).toContain('answered: true\n    answer: It draws dirt.');
  expect(openQuestions(session)).toHaveLength(1);
});

test('one that needs nothing changes no lesson', () => {
  const before = open();
  const session = after(before, dismissQuestion(first(before)));
  expect(lessonText(session)).toBe(LESSON);
  expect(openQuestions(session).map(({ words }) => words)).toEqual(['Of a step that is gone']);
});

test('an answer without words, or that would be read as markup, and a question that has changed are refused', () => {
  const session = open();
  const question = first(session);
  expect(answerQuestion(question)(session, ' ')).toEqual({ refused: 'write the answer first' });
  expect(answerQuestion(question)(session, 'Turn <it')).toMatchObject({
    refused: expect.stringMatching(/read as markup/),
  });
  const changed = { ...question, words: 'Another' };
  expect(answerQuestion(changed)(session, 'x')).toEqual({ refused: 'the question is not there any more' });
  expect(dismissQuestion(changed)(session)).toEqual({ refused: 'the question is not there any more' });
});
