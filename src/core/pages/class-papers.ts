import { headCount } from '../fit/index.ts';
import { english, wording } from '../locale/index.ts';
import type { Shop, ShopClass, SignalWord } from '../model/index.ts';
import { type ClassHead, classHead } from './class-page.ts';
import { classInCourse } from './course-of.ts';

/** A paper for the day itself, beside those that are made from the plan. */
export interface DayPaper {
  /** Its page below the class, and the name of its PDF. */
  readonly path: string;
  readonly name: string;
  /** What it is for, in a line. */
  readonly purpose: string;
}

/** Papers for the door and the tables, in the order in which they are used. */
export const DAY_PAPERS: readonly DayPaper[] = [
  { path: 'door-sign', name: english('Door sign'), purpose: 'for the door: what is on, when, and the way to its page' },
  { path: 'invitation', name: english('Invitation'), purpose: 'to be copied into a letter or pinned up' },
  { path: 'sign-in', name: english('Sign-in sheet'), purpose: 'names by hand, one line each' },
  {
    path: 'briefing',
    name: english('Safety briefing'),
    purpose: 'read out, then signed by everybody who takes up a tool',
  },
  { path: 'name-tags', name: english('Name tags'), purpose: 'to be cut apart' },
  { path: 'feedback', name: english('Feedback slips'), purpose: 'two to a sheet, handed in without a name' },
  {
    path: 'questions',
    name: english('Questions set aside'),
    purpose: 'after the class: what was asked, with room for the answers',
  },
];

/** What the papers for the day say, all from one model. */
export interface DayPapers {
  readonly head: ClassHead;
  readonly shop: string;
  readonly contact?: string;
  /** Lines for names: as many as there is room for, and some more for those who come without asking. */
  readonly lines: number;
  readonly tags: number;
  readonly bring: readonly string[];
  /** What is said before a tool is taken up: what everybody must know, then what the steps of this class warn of. */
  readonly briefing: readonly { readonly word?: SignalWord; readonly text: string }[];
  readonly summary?: string;
  /** Which part of a course it is and what it builds on, in a line. */
  readonly inCourse?: string;
  /** What was asked and set aside, in the order in which it was asked. */
  readonly questions: readonly QuestionOnPaper[];
  /** Path of the class's page on the site. */
  readonly page: string;
}

/** A question that was set aside, as it is printed. */
export interface QuestionOnPaper {
  readonly words: string;
  /** Time of day, hh:mm. */
  readonly asked?: string;
  /** Title of the step that was on screen, or of the block that was on. */
  readonly about?: string;
  readonly answered: boolean;
  readonly answer?: string;
}

/** More lines than places: some bring a friend. Common practice, no source. */
const SPARE_LINES = 3;
/** Where nobody said how many may come. */
const LINES = 15;

/** What everybody must know in a shop. Common practice, no source; local rules and the shop's own come first. */
const ALWAYS: readonly string[] = [
  english('The service manual for the exact model and year decides; local rules and licensed practice come first.'),
  english('Nobody has to do a step. If you are not sure, ask or watch.'),
  english('Closed shoes, hair tied back, no rings, no loose sleeves near anything that turns.'),
  english('I know where the way out, the fire extinguisher, the eye wash and the first-aid box are.'),
  english('I use a tool only after it was shown to me, and stop at once when somebody calls stop.'),
];

/**
 * The papers of a class for its day.
 *
 * @param warnings what the taught steps warn of, each once
 */
export function dayPapers(
  shop: Shop,
  shopClass: ShopClass,
  warnings: readonly { readonly word: SignalWord; readonly text: string }[],
): DayPapers {
  const people = Math.max(headCount(shopClass) ?? 0, shopClass.capacity ?? 0);
  const lines = people === 0 ? LINES : people + SPARE_LINES;
  const { summary, bring = [], id } = shopClass;
  const { name, contact } = shop.info;
  const inCourse = classInCourse(shop, shopClass)?.words;
  const said = new Map(warnings.map((warning) => [warning.text, warning]));
  return {
    head: classHead(shop, shopClass),
    shop: name,
    ...(contact ? { contact } : {}),
    ...(summary ? { summary } : {}),
    ...(inCourse ? { inCourse } : {}),
    lines,
    tags: lines,
    bring,
    questions: questionsOf(shop, shopClass),
    briefing: [...ALWAYS.map((text) => ({ text: wording(shop.locale).t(text) })), ...said.values()],
    page: `classes/${id}/`,
  };
}

function questionsOf({ questions, lessons }: Shop, { id, blocks }: ShopClass): QuestionOnPaper[] {
  const asked = questions.find((each) => each.id === id)?.questions ?? [];
  return asked.map(({ words, asked: at, lesson, step, block, answered, answer }) => {
    const chapters = lessons.find((each) => each.id === lesson)?.chapters ?? [];
    const shown = chapters.flatMap((chapter) => [chapter, ...chapter.steps]).find((each) => each.id === step);
    const about = shown?.title ?? blocks.find((each) => each.id === block)?.title;
    return {
      words,
      ...(at === undefined ? {} : { asked: at }),
      ...(about === undefined ? {} : { about }),
      answered: answered === true,
      ...(answer === undefined ? {} : { answer }),
    };
  });
}
