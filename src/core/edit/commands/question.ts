import { readShop } from '../../read/index.ts';
import { headingText, setYaml } from '../../write/index.ts';
import { withBody } from '../lesson-text.ts';
import { bodyOf } from '../passages.ts';
import type { Session } from '../session.ts';
import { editLesson, tidy } from './lesson-edit.ts';
import { change, type EditCommand, quoteTitle, refuse } from './outcome.ts';

/** A question that was asked in a class about a lesson, and waits for an answer there. */
export interface OpenQuestion {
  readonly file: string;
  /** Place in its file. */
  readonly index: number;
  readonly words: string;
  /** The day of the class, YYYY-MM-DD. */
  readonly date: string;
  /** Id of the step that was on screen, where it is still there. */
  readonly step?: string;
}

/** Questions about the lesson on the table that nobody has answered, the latest class first. */
export function openQuestions({ content, desk, view }: Session): readonly OpenQuestion[] {
  const lesson = /^lessons\/(.+)\.mdx$/.exec(desk.lessonFile ?? '')?.[1];
  const files = new Map([...content.texts].filter(([file]) => file.startsWith('questions/')));
  if (lesson === undefined || files.size === 0) return [];
  const { shop } = readShop(files, () => ({ state: 'missing' }));
  return shop.questions
    .toSorted((a, b) => b.date.localeCompare(a.date))
    .flatMap(({ id, date, questions }) =>
      questions.flatMap((asked, index): OpenQuestion[] => {
        if (asked.answered || asked.lesson !== lesson) return [];
        const step = view.passages.find((passage) => passage.id === asked.step)?.id;
        return [{ file: `questions/${id}.yaml`, index, words: asked.words, date, ...(step && { step }) }];
      }),
    );
}

/**
 * Writes question and answer below the step that was on screen, or the chosen one, and marks the question answered: one
 * change, undone at once.
 */
export const answerQuestion =
  (question: OpenQuestion): EditCommand =>
  (session, words = '') => {
    const answer = tidy(words);
    if (answer === '') return refuse('write the answer first');
    const id = question.step ?? session.content.chosen;
    const passage = session.view.passages.find((each) => each.id === id);
    if (!passage) return refuse('choose the step that it belongs to first');
    const noted = marked(session, question, answer);
    if (typeof noted === 'string') return refuse(noted);
    const label = `answered a question in ${quoteTitle(passage.title)}`;
    const edited = editLesson(session, label, (text) => {
      const { start, end } = bodyOf(text, passage);
      const before = text.slice(start, end);
      const added = `**Asked in class: ${headingText(question.words)}** ${answer}`;
      return withBody(text, passage, before === '' ? added : `${before}\n\n${added}`);
    });
    if ('refused' in edited) return edited;
    const { content, view } = edited.session;
    const texts = new Map(content.texts).set(question.file, noted.text);
    return change(edited.session, { texts, chosen: passage.id }, label, view);
  };

/** Marks a question as one that needs nothing in the lesson. */
export const dismissQuestion =
  (question: OpenQuestion): EditCommand =>
  (session) => {
    const noted = marked(session, question);
    if (typeof noted === 'string') return refuse(noted);
    const texts = new Map(session.content.texts).set(question.file, noted.text);
    return change(session, { texts }, `laid the question ${quoteTitle(question.words)} aside`, session.view);
  };

/** The file with the question marked answered; in words why not. */
function marked(
  { content }: Session,
  { file, index, words }: OpenQuestion,
  answer?: string,
): { readonly text: string } | string {
  const before = content.texts.get(file);
  if (before === undefined) return 'the question is not there any more';
  const { shop } = readShop(new Map([[file, before]]), () => ({ state: 'missing' }));
  if (shop.questions[0]?.questions[index]?.words !== words) return 'the question is not there any more';
  const answered = setYaml(before, ['questions', index, 'answered'], true);
  if (!answered.ok) return answered.problem;
  const whole = answer === undefined ? answered : setYaml(answered.value, ['questions', index, 'answer'], answer);
  return whole.ok ? { text: whole.value } : whole.problem;
}
