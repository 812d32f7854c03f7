import type { Nodes, RootContent } from 'mdast';
import { VFileMessage } from 'vfile-message';
import type { Body as BodyText, Chapter, Diagnostic, Passage, Prose, Step } from '../model/index.ts';
import { type PictureNamed, refusals } from './allow-list.ts';
import { tell } from './faults.ts';
import { Gathering } from './gathering.ts';
import { type Markdown, parseMarkdown } from './parse-markdown.ts';
import { placeholderLeft } from './placeholders.ts';
import type { Points } from './points.ts';
import type { LessonLabelling } from './read-recording.ts';
import { readText } from './read-text.ts';
import { type PassageData, passageOf, sections } from './sections.ts';
import { firstLine } from './words.ts';

/** What stands below the front matter of a lesson. */
export interface Body {
  readonly chapters: readonly Chapter[];
  /** Steps that stand before any chapter. */
  readonly strays: readonly Step[];
  readonly intro: readonly Prose[];
  readonly opening: BodyText;
  readonly notes: BodyText;
  /** Pictures that it names. */
  readonly pictures: readonly PictureNamed[];
}

/**
 * A lesson's MDX as chapters and steps. Every problem is told; with a syntax error there is no body.
 *
 * @param text the whole file, without byte order mark
 * @param labelling of the lesson's recording, for timecodes
 */
export function readBody(
  text: string,
  points: Points,
  labelling: LessonLabelling,
): { body?: Body; diagnostics: Diagnostic[] } {
  const diagnostics: Diagnostic[] = [];
  let markdown: Markdown;
  try {
    markdown = parseMarkdown(text);
  } catch (error) {
    if (!(error instanceof VFileMessage)) throw error;
    diagnostics.push(syntaxError(error, points, text));
    return { diagnostics };
  }

  const { tree, unread } = markdown;
  for (const { start, end, why } of unread)
    diagnostics.push(
      tell(
        'text-not-read',
        points.place(start, end),
        `this is not read: ${why}`,
        'part it with empty lines or into two lessons, or take out what was pasted into it by mistake',
      ),
    );
  const { diagnostics: refused, pictures } = refusals(tree, points);
  diagnostics.push(...refused);
  sections(tree);
  const gather = (nodes: readonly Nodes[]) => new Gathering(points, labelling, diagnostics).walk(nodes);
  const chapters: (Gathered & { readonly steps: readonly Gathered[] })[] = [];
  const strays: Gathered[] = [];
  const before: RootContent[] = [];
  for (const node of tree.children) {
    const data = passageOf(node);
    if (!data || node.type !== 'mdxJsxFlowElement') before.push(node);
    else if (data.kind === 'step') strays.push({ data, gathering: gather(node.children) });
    else {
      const inner = node.children.filter((child) => passageOf(child) === undefined);
      const steps = node.children.flatMap((child): Gathered[] => {
        const data = passageOf(child);
        return data && child.type === 'mdxJsxFlowElement' ? [{ data, gathering: gather(child.children) }] : [];
      });
      chapters.push({ data, gathering: gather(inner), steps });
    }
  }
  const opened = gather(before);
  const intro = [...opened.prose, ...opened.labels];
  // What the pages show is made last: it changes the tree.
  const { opening, notes, passages } = readText(tree);
  const passage = ({ data: { id, title, heading }, gathering }: Gathered): Passage => {
    const { start, end } = heading.position ?? { start: { offset: 0 }, end: { offset: 0 } };
    const place = points.place(start.offset ?? 0, end.offset ?? 0);
    diagnostics.push(...placeholderLeft(title, place));
    return {
      id,
      title,
      place,
      ...gathering.result(),
      body: passages.get(id) ?? [],
    };
  };
  return {
    body: {
      chapters: chapters.map((chapter): Chapter => ({ ...passage(chapter), steps: chapter.steps.map(passage) })),
      strays: strays.map(passage),
      intro,
      opening,
      notes,
      pictures,
    },
    diagnostics,
  };
}

/** A chapter or step with what its part of the tree holds. */
interface Gathered {
  readonly data: PassageData;
  readonly gathering: Gathering;
}

/** What to type, by what stands where the parser stopped. */
function helpFor(reason: string, here: string): string {
  if (/[“”„‟«»‘’]/.test(reason.slice(0, 60)) || /^[“”„‟«»‘’]/.test(here))
    return 'the quotes are typographic; write straight ones: name="value"';
  if (/comment/.test(reason) || here.startsWith('!--') || here.startsWith('<!--'))
    return 'write a note to yourself as {/* … */}';
  if (/before attribute value|attribute value/.test(reason)) return 'put the value in straight quotes: name="value"';
  if (/expected a (corresponding )?closing tag|closing slash/i.test(reason))
    return 'close the element, as <Warning>…</Warning> or <Cue … />, in the paragraph it was opened in';
  if (/acorn|expression|import|export/i.test(reason))
    return 'in words, write { as &#123; and } as &#125;; a lesson holds no code';
  return 'close every element that is opened, and write < and { as &lt; and &#123; in text';
}

/** The parser's complaint, at the element it complains of rather than at the paragraph round it. */
function syntaxError(error: VFileMessage, points: Points, text: string): Diagnostic {
  const reason = firstLine(error.reason).replace(/\.$/, '');
  const named = / \((\d+):(\d+)-(\d+):(\d+)\)/.exec(reason);
  const start = error.place && 'start' in error.place ? error.place.start : error.place;
  const place = named
    ? points.between(Number(named[1]), Number(named[2]), Number(named[3]), Number(named[4]))
    : points.place(start?.offset ?? 0, start?.offset ?? 0);
  const message = reason.charAt(0).toLowerCase() + reason.slice(1).replace(named?.[0] ?? '', '');
  return tell(
    'mdx-syntax',
    place,
    message,
    helpFor(error.reason, text.slice(place.start.offset, place.start.offset + 4)),
  );
}
