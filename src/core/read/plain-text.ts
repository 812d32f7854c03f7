import { toString as nodeText } from 'mdast-util-to-string';

/** The words of a node and all it holds, white space folded. */
export function plainText(node: unknown): string {
  return nodeText(node).replace(/\s+/g, ' ').trim();
}
