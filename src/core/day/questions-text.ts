import { yamlText } from './actual-text.ts';
import { clockOf } from './clock-of.ts';
import type { DaySheet } from './day-sheet.ts';
import type { DayState } from './day-state.ts';

/**
 * The questions that were set aside, as the text of `questions/<class>.yaml`; nothing where there are none.
 *
 * @param date the day the class took place, YYYY-MM-DD
 */
export function questionsText(sheet: DaySheet, state: DayState, date: string): string | undefined {
  if (state.questions.length === 0) return undefined;
  const questions = state.questions.map(({ words, at, block, lesson, step, answered, answer }) => ({
    asked: clockOf(sheet, at),
    words,
    ...(block === undefined ? {} : { block }),
    ...(lesson === undefined ? {} : { lesson }),
    ...(step === undefined ? {} : { step }),
    ...(answered ? { answered } : {}),
    ...(answer === undefined ? {} : { answer }),
  }));
  return `# Questions set aside in class.\n${yamlText({ date, questions })}`;
}
