import type { Element, ElementContent, Root as HtmlRoot, Properties } from 'hast';
import type { Root } from 'mdast';
import { type Handlers, type State, toHast } from 'mdast-util-to-hast';
import { find, html } from 'property-information';
import { type Body, elementNamed, MARKDOWN_TAGS, plainElement } from '../model/index.ts';
import { pictureFile, safeLink } from './addresses.ts';
import { isComplete } from './allow-list.ts';
import { attributeText, type JsxElement } from './jsx.ts';
import { liftBlocks } from './lift-blocks.ts';
import { passageOf } from './sections.ts';

/** The text of a lesson, taken apart where its chapters and steps begin. */
export interface LessonText {
  readonly opening: Body;
  /** By id of the chapter or step: what stands below its heading. */
  readonly passages: ReadonlyMap<string, Body>;
  readonly notes: Body;
}

/** An element that a lesson wrote, on its way through the tree of HTML. */
const WRITTEN = 'written';

const jsx = (state: State, node: JsxElement): Element => ({
  type: 'element',
  tagName: WRITTEN,
  properties: {},
  children: state.all(node),
  data: { written: node },
});

declare module 'hast' {
  interface ElementData {
    written?: JsxElement;
  }
}

const HANDLERS: Handlers = {
  mdxJsxFlowElement: jsx,
  mdxJsxTextElement: jsx,
  mdxFlowExpression: () => undefined,
  mdxTextExpression: () => undefined,
  mdxjsEsm: () => undefined,
  yaml: () => undefined,
};

/**
 * What the pages show of a lesson, of nothing but names on the allow-list; of anything else only the words stay.
 *
 * @param tree sectioned; blocks in it are lifted out of their paragraphs
 */
export function readText(tree: Root): LessonText {
  liftBlocks(tree);
  const root = toHast(tree, {
    handlers: HANDLERS,
    footnoteLabel: 'Notes',
    footnoteLabelProperties: { className: ['hidden-title'] },
    footnoteBackLabel: (number, again) => `Back to note ${number + 1}${again > 1 ? `, place ${again}` : ''}`,
  }) as HtmlRoot;
  const passages = new Map<string, Body>();
  const opening: Body[number][] = [];
  const notes: Body[number][] = [];
  for (const node of root.children as ElementContent[]) {
    const body = bodyOf([node], passages);
    const isNotes = node.type === 'element' && node.tagName === 'section';
    (isNotes ? notes : opening).push(...body);
  }
  return { opening, passages, notes };
}

function bodyOf(nodes: readonly ElementContent[], passages: Map<string, Body>): Body {
  const out: Body[number][] = [];
  const words = (text: string) => {
    const last = out.at(-1);
    if (typeof last === 'string') out[out.length - 1] = last + text;
    else if (text !== '') out.push(text);
  };
  for (const node of nodes) {
    if (node.type === 'text') words(node.value);
    if (node.type !== 'element') continue;
    const written = node.data?.written;
    const passage = written?.type === 'mdxJsxFlowElement' ? passageOf(written) : undefined;
    const children = bodyOf(node.children, passages);
    if (passage) passages.set(passage.id, children);
    else
      for (const each of written ? authors(written, children) : fromMarkdown(node, children))
        typeof each === 'string' ? words(each) : out.push(each);
  }
  return out;
}

/** An element as an author wrote it. */
function authors(node: JsxElement, children: Body): Body {
  const name = node.name ?? '';
  const row = elementNamed(name);
  const given = Object.fromEntries(
    node.attributes.flatMap((attribute) =>
      attribute.type === 'mdxJsxAttribute' ? [[attribute.name, attributeText(attribute) ?? '']] : [],
    ),
  );
  const only = (names: readonly string[]) =>
    Object.fromEntries(Object.entries(given).filter(([attribute]) => names.includes(attribute)));
  if (row)
    return isComplete(node, row)
      ? [{ element: row.name, attributes: only(Object.keys(row.attributes)), children }]
      : children;
  const plain = plainElement(name);
  if (plain) return [{ tag: name, attributes: only([...plain.attributes, 'lang']), children }];
  return name === 'script' || name === 'style' ? [] : children;
}

/** An element that Markdown made. */
function fromMarkdown({ tagName, properties }: Element, children: Body): Body {
  if (!MARKDOWN_TAGS.has(tagName)) return children;
  if (tagName === 'img') {
    const picture = pictureFile(String(properties.src ?? ''));
    const alt = String(properties.alt ?? '');
    if (!('file' in picture)) return [alt];
    return [{ tag: 'img', attributes: { ...attributesOf(properties), src: picture.file, alt }, children: [] }];
  }
  if (tagName === 'a' && !safeLink(String(properties.href ?? ''))) return children;
  return [{ tag: tagName, attributes: attributesOf(properties), children }];
}

/** Properties as the attributes HTML writes for them. */
function attributesOf(properties: Properties): Record<string, string> {
  const out: Record<string, string> = {};
  for (const [name, value] of Object.entries(properties)) {
    if (value === false || value === null || value === undefined) continue;
    const { attribute } = find(html, name);
    out[attribute] = value === true ? '' : Array.isArray(value) ? value.join(' ') : String(value);
  }
  return out;
}
