import type { Nodes, Root } from 'mdast';

/** A stretch of a lesson that is not read: offsets in its text, and why. */
export interface Unread {
  readonly start: number;
  readonly end: number;
  readonly why: string;
}

/**
 * How much of a lesson is read. What the parser needs grows faster than the marks in one paragraph and than the depth of
 * what stands inside each other, so a page of stars could hold it up for minutes. A long lesson of the demo shop has
 * 16 000 characters, 1 500 marks and lines, 40 marks in one paragraph, and a depth of 6.
 */
export const MOST_OF_LESSON = {
  /** UTF-16 units of the whole file. */
  characters: 300_000,
  /** Marks of the whole file, a line counted as five of them. */
  marks: 12_000,
  /** Marks between two empty lines or headings. */
  paragraphMarks: 400,
  /** Signs of quotes, lists and notes at the beginning of one line. */
  signs: 100,
  /** Columns that a line is indented. */
  indent: 100,
  /** Elements, lists, quotes and emphasis inside each other. */
  depth: 100,
} as const;

/** Columns that a tab leads to. */
const TAB = 4;
/** Characters that may mean something to Markdown. */
const MARKS = new Set([...'*_~[]<>{}|&\\`+="'].map((mark) => mark.charCodeAt(0)));
/** What a line costs the parser, in marks. */
const LINE = 5;
const [OPEN, SHUT, BLANK] = [60, 62, 32];
const SIGN = /[ \t]*(?:>|[-+*](?=[ \t]|$)|\d{1,9}[.)](?=[ \t]|$)|\[\^[^\]\s]{1,99}\]:)/y;
const HEADING = /^ {0,3}#{1,6}(?:[ \t]|$)/;

interface Block {
  readonly start: number;
  end: number;
  marks: number;
  /** Marks and lines, as {@link MOST_OF_LESSON} counts them for the whole. */
  weight: number;
  why?: string;
}

/**
 * The text with what is over the limits blanked out, every other character where it was.
 *
 * @param from offset behind the front matter
 */
export function withinLimits(
  text: string,
  from: number,
): { readonly text: string; readonly unread: readonly Unread[] } {
  const unread: Unread[] = [];
  const pieces = [text.slice(0, from)];
  let weight = 0;
  for (const block of blocksOf(text, from)) {
    const { start, end, why } = block;
    weight += why === undefined ? block.weight : 0;
    const over = overall(end, weight);
    if (over !== undefined) {
      unread.push({ start, end: text.length, why: over });
      return { text: pieces.join(''), unread };
    }
    if (why !== undefined) unread.push({ start, end, why });
    const piece = text.slice(start, end);
    pieces.push(why === undefined ? piece : piece.replaceAll(/[^\r\n]/g, ' '));
  }
  return { text: pieces.join(''), unread };
}

function overall(end: number, weight: number): string | undefined {
  const { characters, marks } = MOST_OF_LESSON;
  if (end > characters) return `a lesson is read up to ${characters} characters`;
  return weight > marks ? `a lesson is read up to ${marks} marks and lines` : undefined;
}

/** Stretches that the parser looks at as one at most: up to an empty line or a heading. They follow each other without gap. */
function* blocksOf(text: string, from: number): Generator<Block> {
  let block: Block = { start: from, end: from, marks: 0, weight: 0 };
  let inTag = false;
  for (let at = from; at < text.length; ) {
    const newline = text.indexOf('\n', at);
    const end = newline === -1 ? text.length : newline + 1;
    const line = text.slice(at, end);
    const heading = HEADING.test(line);
    if (heading && block.end > block.start) {
      yield block;
      block = { start: at, end: at, marks: 0, weight: 0 };
    }
    inTag = addLine(block, line, inTag);
    block.end = end;
    if (heading || line.trim() === '') {
      yield block;
      block = { start: end, end, marks: 0, weight: 0 };
    }
    at = end;
  }
  if (block.end > block.start) yield block;
}

/** @returns whether the line ends within a tag, where each blank may begin an attribute and counts as a mark */
function addLine(block: Block, line: string, within: boolean): boolean {
  const { paragraphMarks, indent, signs } = MOST_OF_LESSON;
  let marks = 0;
  let inTag = within;
  for (let at = 0; at < line.length; at++) {
    const code = line.charCodeAt(at);
    if (code === OPEN) inTag = true;
    else if (code === SHUT) inTag = false;
    if (MARKS.has(code) || (inTag && code === BLANK)) marks++;
  }
  const columns = indentOf(line);
  block.marks += marks;
  // Each column may be a list that the line goes on in.
  block.weight += (line.trim() === '' ? 0 : LINE) + marks + Math.floor(columns / 2);
  if (block.marks > paragraphMarks)
    block.why = `more than ${paragraphMarks} stars, brackets and other marks without an empty line between them`;
  else if (columns > indent) block.why ??= `a line is indented by more than ${indent} columns`;
  else if (signsOf(line) > signs) block.why ??= `more than ${signs} signs of quotes and lists begin one line`;
  return inTag;
}

function indentOf(line: string): number {
  let columns = 0;
  for (const letter of line) {
    if (letter === '\t') columns += TAB - (columns % TAB);
    else if (letter === ' ') columns++;
    else return columns;
  }
  // An empty line is indented by nothing.
  return 0;
}

function signsOf(line: string): number {
  let count = 0;
  for (SIGN.lastIndex = 0; SIGN.test(line); ) count++;
  return count;
}

/** Takes out of a tree what stands deeper than the limit, so that whoever walks it never runs out of stack. */
export function cutDepth(tree: Root): readonly Unread[] {
  const unread: Unread[] = [];
  const open: { readonly node: Nodes; readonly depth: number }[] = [{ node: tree, depth: 0 }];
  for (let next = open.pop(); next; next = open.pop()) {
    const { node, depth } = next;
    if (!('children' in node)) continue;
    if (depth <= MOST_OF_LESSON.depth) {
      for (const child of node.children) open.push({ node: child, depth: depth + 1 });
      continue;
    }
    node.children = [];
    const { start, end } = node.position ?? { start: { offset: 0 }, end: { offset: 0 } };
    unread.push({
      start: start.offset ?? 0,
      end: end.offset ?? 0,
      why: `more than ${MOST_OF_LESSON.depth} elements, lists and quotes stand inside each other`,
    });
  }
  return unread;
}
