import type { Paragraph, PhrasingContent, Root, RootContent } from 'mdast';
import type { MdxJsxFlowElement } from 'mdast-util-mdx-jsx';
import { elementNamed, plainElement } from '../model/index.ts';

interface Parent {
  children: RootContent[];
}

/**
 * Lifts blocks out of the paragraph they were written in, so that the page is sound HTML: an author may write
 * a key point in the middle of a paragraph, but a box cannot stand inside `<p>`.
 */
export function liftBlocks(tree: Root): void {
  walk(tree as Parent);
}

function walk(parent: Parent): void {
  parent.children = parent.children.flatMap((node) => {
    if (node.type === 'paragraph') return splitParagraph(node);
    if ('children' in node) walk(node as Parent);
    if (node.type === 'mdxJsxFlowElement') unwrap(node);
    return [node];
  });
}

/** One paragraph alone in a box of words: the words stand in the box themselves. */
function unwrap(node: MdxJsxFlowElement): void {
  const [only, ...others] = node.children;
  if (only?.type !== 'paragraph' || others.length > 0 || !elementNamed(node.name ?? '')?.words) return;
  node.children = only.children as MdxJsxFlowElement['children'];
}

function isBlock(name: string): boolean {
  return elementNamed(name)?.block ?? plainElement(name)?.inline === false;
}

function splitParagraph(paragraph: Paragraph): RootContent[] {
  const parts: RootContent[] = [];
  let run: PhrasingContent[] = [];
  const close = () => {
    const text = trimBlankEnds(run);
    if (text.length) parts.push({ ...paragraph, children: text });
    run = [];
  };
  for (const node of paragraph.children) {
    if (node.type === 'mdxJsxTextElement' && isBlock(node.name ?? '')) {
      close();
      parts.push({ ...node, type: 'mdxJsxFlowElement' } as MdxJsxFlowElement);
    } else run.push(node);
  }
  close();
  return parts;
}

/** Without blank ends, which would be an empty paragraph or a stray space. */
function trimBlankEnds(run: readonly PhrasingContent[]): PhrasingContent[] {
  const blank = (node: PhrasingContent | undefined) => node?.type === 'text' && node.value.trim() === '';
  let [start, end] = [0, run.length];
  while (start < end && blank(run[start])) start++;
  while (end > start && blank(run[end - 1])) end--;
  return run.slice(start, end);
}
