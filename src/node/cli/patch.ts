import { createTwoFilesPatch } from 'diff';
import { decodeText, type TextChange } from '../files/index.ts';

/** A difference is looked for this long: finding it takes the product of the shorter text's lines and those that differ. */
const MOST_STEPS = 10_000_000;
/** So many lines that differ are always found. */
const LEAST_EDITS = 3000;

/** A change of a text as a patch, for people to read. */
export function patch({ file, was, text }: TextChange): string {
  const before = was === undefined ? '' : typeof was === 'string' ? was : decodeText(was).text;
  const lines = (one: string) => one.split('\n').length - 1;
  return (
    createTwoFilesPatch(was === undefined ? '/dev/null' : file, file, before, text, '', '', {
      context: 2,
      maxEditLength: Math.max(LEAST_EDITS, MOST_STEPS / (1 + Math.min(lines(before), lines(text)))),
    })?.replace(/^(?:Index: .*\n)?=+\n/, '') ??
    `--- ${file}\n+++ ${file}\n${lines(before)} lines become ${lines(text)}: too much differs to be shown line by line`
  );
}
