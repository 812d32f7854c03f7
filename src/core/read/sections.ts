import type { Heading, Root, RootContent } from 'mdast';
import type { MdxJsxFlowElement } from 'mdast-util-mdx-jsx';
import { cueIdOf } from './jsx.ts';
import { plainText } from './plain-text.ts';
import { slug } from './slug.ts';

/** What {@link sections} knows of the chapter or step an element stands for. */
export interface PassageData {
  readonly kind: 'chapter' | 'step';
  readonly id: string;
  readonly title: string;
  readonly heading: Heading;
}

declare module 'mdast-util-mdx-jsx' {
  interface MdxJsxFlowElementData {
    passage?: PassageData;
  }
}

/** The chapter or step that {@link sections} made of this element; nothing for what an author wrote as JSX. */
export function passageOf(node: RootContent): PassageData | undefined {
  return node.type === 'mdxJsxFlowElement' ? node.data?.passage : undefined;
}

/**
 * The sectioning rule, `##` opens a chapter, `###` a step; each becomes
 * an element (`<Chapter>`, `<Step>`) round what follows, with an `id` and a `title`. The id is that of its
 * `<Cue id>`, otherwise made from the title; a second one of the same name gets `-2`, so that an address names one
 * place. A step before any chapter stays outside. A `#`, which is told elsewhere, is taken for the chapter it should be.
 */
export function sections(tree: Root): void {
  const taken = new Map<string, number>();
  const out: RootContent[] = [];
  let chapter: MdxJsxFlowElement | undefined;
  let step: MdxJsxFlowElement | undefined;

  tree.children.forEach((node, index) => {
    if (node.type !== 'heading' || node.depth > 3) {
      const holder = step ?? chapter;
      if (holder) holder.children.push(node as MdxJsxFlowElement['children'][number]);
      else out.push(node);
      return;
    }
    const title = plainText(node);
    const id = unique(ownCueId(tree.children, index) ?? slug(title), taken);
    const element = passageElement({ kind: node.depth <= 2 ? 'chapter' : 'step', id, title, heading: node });
    if (node.depth <= 2) {
      chapter = element;
      step = undefined;
      out.push(element);
    } else {
      step = element;
      if (chapter) chapter.children.push(element);
      else out.push(element);
    }
  });
  tree.children = out;
}

/** The id on the first `<Cue>` between this heading and the next. */
function ownCueId(nodes: readonly RootContent[], heading: number): string | undefined {
  for (let index = heading + 1; index < nodes.length; index++) {
    const node = nodes[index];
    if (!node || (node.type === 'heading' && node.depth <= 3)) return undefined;
    const id = cueIdOf(node);
    if (id !== undefined) return id;
  }
  return undefined;
}

/** @param taken ids with the number that the next one of the same name would get */
function unique(wanted: string, taken: Map<string, number>): string {
  let id = wanted;
  let n = taken.get(wanted) ?? 2;
  for (; taken.has(id); n++) id = `${wanted}-${n}`;
  taken.set(wanted, n);
  taken.set(id, taken.get(id) ?? 2);
  return id;
}

function passageElement(passage: PassageData): MdxJsxFlowElement {
  return {
    type: 'mdxJsxFlowElement',
    name: passage.kind === 'chapter' ? 'Chapter' : 'Step',
    attributes: [
      { type: 'mdxJsxAttribute', name: 'id', value: passage.id },
      { type: 'mdxJsxAttribute', name: 'title', value: passage.title },
    ],
    children: [],
    data: { passage },
    position: passage.heading.position,
  };
}
