import type { Root } from 'mdast';
import remarkFrontmatter from 'remark-frontmatter';
import remarkGfm from 'remark-gfm';
import remarkMdx from 'remark-mdx';
import remarkParse from 'remark-parse';
import { unified } from 'unified';
import { cutDepth, type Unread, withinLimits } from './lesson-limits.ts';

const processor = unified().use(remarkParse).use(remarkFrontmatter, ['yaml']).use(remarkGfm).use(remarkMdx);

/** Front matter at the top of a lesson: the line of `---`, the YAML, the line that ends it. */
const FRONT_MATTER = /^(---[ \t]*\r?\n)([\s\S]*?)^---[ \t]*(?:\r?\n|$)/m;

/** The front matter of a text that begins with it. */
export function frontMatter(text: string): RegExpExecArray | undefined {
  const match = text.startsWith('---') ? FRONT_MATTER.exec(text) : null;
  return match?.index === 0 ? match : undefined;
}

export interface Markdown {
  readonly tree: Root;
  /** What is over the limits, and stands in the tree as if it were not there. */
  readonly unread: readonly Unread[];
}

/**
 * A lesson as a tree of Markdown: the one place where Markdown is parsed, in a time that grows no faster than the text.
 *
 * @param text the whole file, without byte order mark; positions in the tree are offsets in it
 * @throws VFileMessage where it is no MDX
 */
export function parseMarkdown(text: string): Markdown {
  const within = withinLimits(text, frontMatter(text)?.[0].length ?? 0);
  const tree = processor.parse(within.text);
  return { tree, unread: [...within.unread, ...cutDepth(tree)].toSorted((a, b) => a.start - b.start) };
}
