import { type Clash, mergeTexts, type Side, settle } from '../edit/index.ts';
import type { Passage } from '../model/index.ts';
import type { Choose, Compared } from '../pack/index.ts';
import { firstLine, readShop } from '../read/index.ts';

/** Three versions of a text that is written, not tabulated: a lesson, a recording. */
export interface LessonVersions {
  readonly ours: string;
  readonly theirs: string;
  readonly base?: string | undefined;
}

/**
 * A lesson that both sides may have changed, line by line. What both changed differently is a choice under the id of its
 * step; and so is a warning or key point that the shop has and the publisher's version no longer has.
 */
export function mergeLesson(
  file: string,
  { ours, theirs, base }: LessonVersions,
  choose: Choose,
): { readonly compared: readonly Compared[]; readonly text: string } {
  if (ours === theirs) return { compared: [{ name: file, state: 'same' }], text: ours };
  if (base === theirs) return { compared: [{ name: file, state: 'own' }], text: ours };
  // Without an earlier version nobody knows who changed what.
  if (base === undefined)
    return { compared: [{ name: file, state: 'differs' }], text: choose(file) === 'take' ? theirs : ours };
  const merge = mergeTexts(base, ours, theirs);
  const nameOf = ({ line }: Clash) => nameAt(file, theirs, line);
  const compared = merge.clashes.map((clash): Compared => {
    return { name: nameOf(clash), state: 'differs', here: shown(clash.mine), there: shown(clash.theirs) };
  });
  const sides = merge.clashes.map((clash): Side => (choose(nameOf(clash)) === 'take' ? 'theirs' : 'mine'));
  const text = settle(merge, sides);
  const lost = lostSafety(file, ours, text).filter(({ name }) => !compared.some((one) => one.name === name));
  if (lost.some(({ name }) => choose(name) === 'keep')) return { compared: [...compared, ...lost], text: ours };
  const changed: Compared[] = text === ours ? [] : [{ name: file, state: 'changed' }];
  return { compared: [...changed, ...compared, ...lost], text };
}

/** Warnings and key points of steps that a merged text would no longer have. */
function lostSafety(file: string, before: string, after: string): Compared[] {
  const [had, has] = [safetyOf(file, before), safetyOf(file, after)];
  return had
    .filter(({ words }) => !has.some((one) => one.words === words))
    .map(({ step, words }) => ({ name: `${file}#${step}`, state: 'differs', here: words, there: '(taken away)' }));
}

function safetyOf(file: string, text: string): { readonly step: string; readonly words: string }[] {
  const { shop } = readShop(new Map([[file, text]]), () => ({ state: 'picture' }));
  const of = ({ id, signals, keyPoints }: Passage) => [
    ...signals.map(({ word, text: words }) => ({ step: id, words: `${word}: ${words}` })),
    ...keyPoints.map(({ text: words }) => ({ step: id, words: `key point: ${words}` })),
  ];
  return shop.lessons.flatMap(({ chapters }) => chapters.flatMap((chapter) => [chapter, ...chapter.steps].flatMap(of)));
}

/** The step, or chapter, that a line of a lesson stands in; the line itself elsewhere. @param line from 1 */
function nameAt(file: string, text: string, line: number): string {
  const { shop } = readShop(new Map([[file, text]]), () => ({ state: 'picture' }));
  const passages = shop.lessons.flatMap(({ chapters }) => chapters.flatMap((each) => [each, ...each.steps]));
  const at = passages.findLast(({ place }) => place.start.line <= line);
  return at ? `${file}#${at.id}` : `${file}#line-${line}`;
}

function shown(text: string): string {
  return text.trim() === '' ? '(nothing)' : firstLine(text.trim().replaceAll(/\s*\n\s*/g, ' / '));
}
