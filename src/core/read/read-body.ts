import type { Nodes, Parents, Root, RootContent } from 'mdast';
import remarkFrontmatter from 'remark-frontmatter';
import remarkGfm from 'remark-gfm';
import remarkMdx from 'remark-mdx';
import remarkParse from 'remark-parse';
import { unified } from 'unified';
import { VFileMessage } from 'vfile-message';
import type { Chapter, Diagnostic, Passage, Prose, Step } from '../model/index.ts';
import { tell } from './faults.ts';
import { Gathering } from './gathering.ts';
import type { Points } from './points.ts';
import type { LessonLabelling } from './read-recording.ts';
import { passageOf, sections } from './sections.ts';

const processor = unified()
  .use(remarkParse)
  .use(remarkFrontmatter, ['yaml'])
  .use(remarkGfm)
  .use(remarkMdx)
  .use(sections);

/** What stands below the front matter of a lesson. */
export interface Body {
  readonly chapters: readonly Chapter[];
  /** Steps that stand before any chapter. */
  readonly strays: readonly Step[];
  readonly intro: readonly Prose[];
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
  let tree: Root;
  try {
    tree = processor.runSync(processor.parse(text)) as Root;
  } catch (error) {
    if (!(error instanceof VFileMessage)) throw error;
    diagnostics.push(syntaxError(error, points));
    return { diagnostics };
  }

  const imported = importedNames(tree);
  const gather = (nodes: readonly Nodes[]) => new Gathering(points, labelling, imported, diagnostics).walk(nodes);
  const step = (node: RootContent & Parents): Step => {
    const data = passageOf(node);
    return passage(data, points, gather(node.children));
  };
  const chapters: Chapter[] = [];
  const strays: Step[] = [];
  const before: RootContent[] = [];
  for (const node of tree.children) {
    const data = passageOf(node);
    if (!data || node.type !== 'mdxJsxFlowElement') before.push(node);
    else if (data.kind === 'step') strays.push(step(node));
    else {
      const inner = node.children.filter((child) => passageOf(child) === undefined);
      const steps = node.children.flatMap((child) =>
        passageOf(child) && child.type === 'mdxJsxFlowElement' ? [step(child)] : [],
      );
      chapters.push({ ...passage(data, points, gather(inner)), steps });
    }
  }
  return { body: { chapters, strays, intro: gather(before).prose }, diagnostics };
}

function passage(data: ReturnType<typeof passageOf>, points: Points, gathering: Gathering): Passage {
  const { start, end } = data?.heading.position ?? { start: { offset: 0 }, end: { offset: 0 } };
  return {
    id: data?.id ?? '',
    title: data?.title ?? '',
    place: points.place(start.offset ?? 0, end.offset ?? 0),
    ...gathering.found(),
  };
}

/** The parser's complaint, at the element it complains of rather than at the paragraph round it. */
function syntaxError(error: VFileMessage, points: Points): Diagnostic {
  const reason = (error.reason.split('\n')[0] ?? error.reason).replace(/\.$/, '');
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
    'close every element that is opened, and write < and { as &lt; and &#123; in text',
  );
}

/** Names that the lesson imports or defines for itself. */
function importedNames(tree: Root): Set<string> {
  const names = new Set<string>();
  for (const node of tree.children)
    if (node.type === 'mdxjsEsm') for (const match of node.value.matchAll(/\b([A-Z]\w*)\b/g)) names.add(match[1] ?? '');
  return names;
}
