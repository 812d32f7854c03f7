import type { Root, RootContent } from 'mdast';
import { visit } from 'unist-util-visit';
import { frontMatter, parseMarkdown } from '../read/index.ts';
import { fail, ok, type Parsed } from '../time/index.ts';
import { applySplices, lineEnd, type Splice, withoutMark } from './splice.ts';
import { type Path, setYaml } from './yaml.ts';
import type { Plain } from './yaml-text.ts';

/** Sets a value of a lesson's front matter; the lesson itself is not touched. */
export function setFrontMatter(source: string, path: Path, value: Plain): Parsed<string> {
  return changeFrontMatter(source, (yaml) => setYaml(yaml, path, value));
}

function changeFrontMatter(source: string, edit: (yaml: string) => Parsed<string>): Parsed<string> {
  const [mark, text] = withoutMark(source);
  const match = frontMatter(text);
  if (!match) return fail('the lesson has no front matter', 'begin the file with two lines of ---');
  const [, open = '', yaml = ''] = match;
  const changed = edit(yaml);
  return changed.ok ? ok(mark + open + changed.value + text.slice(open.length + yaml.length)) : changed;
}

/** Attributes as written: a text, or nothing for one that is to go (or was not there). */
export type Attributes = Readonly<Record<string, string | undefined>>;

/** An element as a lesson writes it: `<Cue at="0:03:10" />`. */
export function elementText(name: string, attributes: Attributes): string {
  const written = Object.entries(attributes).flatMap(([key, value]) =>
    value === undefined ? [] : [` ${key}=${quoteAttribute(value)}`],
  );
  return `<${name}${written.join('')} />`;
}

/** An attribute value in quotes; character references stand for what would end or change it. */
function quoteAttribute(value: string): string {
  const safe = value.replaceAll(/&(?=#?\w+;)/g, '&amp;');
  return safe.includes('"') && !safe.includes("'") ? `'${safe}'` : `"${safe.replaceAll('"', '&quot;')}"`;
}

/**
 * Sets, adds or (with `undefined`) takes out attributes of the element that begins at an offset.
 * What else the element holds stays as written.
 *
 * @param at offset of the `<`, as the place of a cue or a citation gives it
 */
export function setAttributes(source: string, at: number, attributes: Attributes): Parsed<string> {
  return changeMdx(source, (tree, text, shift) => {
    let splices: Splice[] | undefined;
    visit(tree, ['mdxJsxFlowElement', 'mdxJsxTextElement'], (node) => {
      if (node.position?.start.offset !== at - shift) return;
      if (node.type !== 'mdxJsxFlowElement' && node.type !== 'mdxJsxTextElement') return;
      splices = Object.entries(attributes).flatMap(([key, value]): Splice[] => {
        const known = node.attributes.find(
          (attribute) => attribute.type === 'mdxJsxAttribute' && attribute.name === key,
        );
        const from = known?.position?.start.offset;
        const to = known?.position?.end.offset;
        if (from !== undefined && to !== undefined) {
          if (value !== undefined) return [{ from, to, text: `${key}=${quoteAttribute(value)}` }];
          return [{ from: text.slice(0, from).trimEnd().length, to, text: '' }];
        }
        if (value === undefined) return [];
        const last = node.attributes.at(-1)?.position?.end.offset;
        const end = last ?? at - shift + 1 + (node.name ?? '').length;
        return [{ from: end, to: end, text: ` ${key}=${quoteAttribute(value)}` }];
      });
    });
    return splices ?? `there is no element at offset ${at}`;
  });
}

/** Puts an element on a line of its own below the heading that begins at an offset. */
export function insertBelowHeading(source: string, at: number, element: string): Parsed<string> {
  return changeMdx(source, (tree, text, shift) => {
    const heading = headings(tree).find((node) => node.position?.start.offset === at - shift);
    const end = heading?.position?.end.offset;
    if (end === undefined) return `there is no heading at offset ${at}`;
    const newline = lineEnd(text);
    const next = text.slice(end);
    const blank = next.trim() === '' || /^\r?\n\s*\r?\n/.test(next) || /^\r?\n<Cue\b/.test(next) ? '' : newline;
    return [{ from: end, to: end, text: `${newline}${element}${blank}` }];
  });
}

/** Takes out the element that begins at an offset, with its line where it stands alone on it. */
export function removeElement(source: string, at: number): Parsed<string> {
  return changeMdx(source, (tree, text, shift) => {
    let splices: Splice[] | undefined;
    visit(tree, ['mdxJsxFlowElement', 'mdxJsxTextElement'], (node) => {
      const from = node.position?.start.offset;
      const to = node.position?.end.offset;
      if (from !== at - shift || to === undefined) return;
      const start = text.lastIndexOf('\n', from - 1) + 1;
      const end = text.indexOf('\n', to);
      const alone = text.slice(start, from).trim() === '' && text.slice(to, end === -1 ? undefined : end).trim() === '';
      splices = [alone ? { from: start, to: end === -1 ? text.length : end + 1, text: '' } : { from, to, text: '' }];
    });
    return splices ?? `there is no element at offset ${at}`;
  });
}

/** Gives the heading that begins at an offset another title. */
export function setHeading(source: string, at: number, title: string): Parsed<string> {
  return changeMdx(source, (tree, _text, shift) => {
    const heading = headings(tree).find((node) => node.position?.start.offset === at - shift);
    const from = heading?.children[0]?.position?.start.offset;
    const to = heading?.children.at(-1)?.position?.end.offset;
    return from === undefined || to === undefined
      ? `there is no heading at offset ${at}`
      : [{ from, to, text: headingText(title) }];
  });
}

/** A heading and what stands under it, to be put into a lesson. */
export interface NewPassage {
  /** 2 opens a chapter, 3 a step. */
  readonly depth: 2 | 3;
  readonly title: string;
  /** Lines below the heading, such as a cue. */
  readonly lines?: readonly string[];
}

/**
 * Puts chapters and steps into a lesson, before the heading that begins at an offset, or at the end.
 *
 * @param before offset of a heading; left out: the end of the lesson
 */
export function insertPassages(source: string, passages: readonly NewPassage[], before?: number): Parsed<string> {
  return changeMdx(source, (tree, text, shift) => {
    const newline = lineEnd(text);
    const written = passages.map((passage) => passageLines(passage).join(newline)).join(newline + newline);
    if (before === undefined) {
      const kept = text.trimEnd().length;
      return [{ from: kept, to: text.length, text: `${kept > 0 ? newline + newline : ''}${written}${newline}` }];
    }
    if (!headings(tree).some((node) => node.position?.start.offset === before - shift))
      return `there is no heading at offset ${before}`;
    return [{ from: before - shift, to: before - shift, text: `${written}${newline}${newline}` }];
  });
}

function passageLines({ depth, title, lines = [] }: NewPassage): string[] {
  return [`${'#'.repeat(depth)} ${headingText(title)}`, ...lines];
}

/** A title as the text of a heading: on one line, nothing in it read as markup. */
export function headingText(title: string): string {
  return title
    .replaceAll(/\s+/g, ' ')
    .trim()
    .replaceAll(/[\\`*_{}[\]<>~]/g, '\\$&')
    .replaceAll(/&(?=#?\w+;)/g, '\\&')
    .replace(/(#+)$/, (marks) => marks.replaceAll('#', '\\#'));
}

function headings(tree: Root) {
  return tree.children.filter((node): node is Extract<RootContent, { type: 'heading' }> => node.type === 'heading');
}

/** Parses, splices, and parses again, so that a lesson that could be read still can. */
function changeMdx(
  marked: string,
  plan: (tree: Root, text: string, shift: number) => readonly Splice[] | string,
): Parsed<string> {
  const [mark, source] = withoutMark(marked);
  const before = parse(source);
  if (!before.ok) return before;
  const splices = plan(before.value, source, mark.length);
  if (typeof splices === 'string') return fail(splices, 'read the lesson again; it may have changed');
  const text = applySplices(source, splices);
  const after = parse(text);
  return after.ok ? ok(mark + text) : fail('the change would break the lesson', after.help);
}

function parse(source: string): Parsed<Root> {
  try {
    return ok(parseMarkdown(source).tree);
  } catch (error) {
    const { reason, line, column } = error as { reason?: string; line?: number; column?: number };
    return fail(
      `the lesson cannot be read: ${reason ?? String(error)}`,
      `mend line ${line ?? '?'}, column ${column ?? '?'} by hand`,
    );
  }
}
