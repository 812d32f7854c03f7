import { readFileSync } from 'node:fs';
import { slug } from '../../../src/core/read/index.ts';

/** A chapter or step as the lesson has it. */
export interface Heading {
  readonly id: string;
  readonly title: string;
  /** Of the chapter it stands in. */
  readonly chapter: string;
  /** Counted from 1. */
  readonly chapterNumber: number;
}

/** The headings of a lesson by id; the pictures carry their titles. */
export function readHeadings(lesson: string, content = 'content'): ReadonlyMap<string, Heading> {
  const found = new Map<string, Heading>();
  let chapter = '';
  let chapterNumber = 0;
  for (const [, marks = '', title = ''] of readFileSync(`${content}/lessons/${lesson}.mdx`, 'utf8').matchAll(
    /^(##|###) (.+)$/gm,
  )) {
    const id = slug(title);
    if (marks === '##') {
      chapter = title;
      chapterNumber++;
    }
    found.set(id, { id, title, chapter, chapterNumber });
  }
  return found;
}
