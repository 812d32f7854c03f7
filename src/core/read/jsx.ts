import type { Nodes } from 'mdast';
import type { MdxJsxAttribute, MdxJsxFlowElement, MdxJsxTextElement } from 'mdast-util-mdx-jsx';

export type JsxElement = MdxJsxFlowElement | MdxJsxTextElement;

export function isJsx(node: Nodes): node is JsxElement {
  return node.type === 'mdxJsxFlowElement' || node.type === 'mdxJsxTextElement';
}

/** The attribute of that name; not one hidden in a spread. */
export function attributeOf(element: JsxElement, name: string): MdxJsxAttribute | undefined {
  return element.attributes.find((a): a is MdxJsxAttribute => a.type === 'mdxJsxAttribute' && a.name === name);
}

/** The text of an attribute written in quotes, or as a plain number or string in braces; empty when it has no value. */
export function attributeText(attribute: MdxJsxAttribute | undefined): string | undefined {
  if (!attribute) return undefined;
  if (typeof attribute.value === 'string') return attribute.value;
  if (attribute.value === null || attribute.value === undefined) return '';
  const written = attribute.value.value.trim();
  const quoted = /^(['"`])(.*)\1$/s.exec(written);
  return quoted ? quoted[2] : written;
}

/** The id on a `<Cue>`, which stands on a line of its own or inside a paragraph. */
export function cueIdOf(node: Nodes): string | undefined {
  if (isJsx(node) && node.name === 'Cue') return attributeText(attributeOf(node, 'id'));
  if (node.type !== 'paragraph') return undefined;
  for (const child of node.children) {
    const id = cueIdOf(child);
    if (id !== undefined) return id;
  }
  return undefined;
}
