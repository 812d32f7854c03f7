import {
  type Document,
  isCollection,
  isMap,
  isNode,
  isPair,
  isScalar,
  type Node,
  type Pair,
  type Scalar,
  type YAMLMap,
} from 'yaml';
import { lineAfter, lineStart, type Splice } from './splice.ts';
import { blockText, flowText, type Plain, scalarText } from './yaml-text.ts';

/** Keys and list positions from the top of a file down to a value. */
export type Path = readonly (string | number)[];

/** A file as parsed, and how it ends its lines. */
export interface Yaml {
  readonly source: string;
  readonly document: Document.Parsed;
  readonly newline: string;
}

/** True for a value that is not written at all, such as that of `edit:` alone. */
export function isEmptyNode(source: string, node: Node): boolean {
  const [from = 0, to = 0] = node.range ?? [];
  return isScalar(node) && node.value === null && source.slice(from, to).trim() === '';
}

export function keyOf(pair: Pair): string {
  return isScalar(pair.key) ? String(pair.key.value) : String(pair.key);
}

/** Offset of a pair's key. */
export function startOfPair(pair: Pair | undefined): number {
  return pair && isNode(pair.key) ? (pair.key.range?.[0] ?? 0) : 0;
}

/** The node a pair ends with: its value, or its key where no value is written. */
function lastOf(pair: Pair | undefined): Node | undefined {
  if (!pair) return undefined;
  if (isNode(pair.value) && pair.value.range) return pair.value;
  return isNode(pair.key) ? pair.key : undefined;
}

/** Where what a pair says ends. */
export function endOfPair(pair: Pair | undefined): number {
  const node = lastOf(pair);
  return node ? contentEnd(node) : 0;
}

/** Offset after the last line of a pair. */
export function afterPair(source: string, pair: Pair | undefined): number {
  const node = lastOf(pair);
  return node ? afterLines(source, node) : source.length;
}

/** The blanks before the keys of a block map. */
export function indentOf(source: string, map: YAMLMap): string {
  const from = startOfPair(map.items[0]);
  return ' '.repeat(from - lineStart(source, from));
}

/** Where what a node says ends: before trailing comments and blank lines. */
export function contentEnd(node: Node): number {
  if (isCollection(node) && !node.flow) {
    const last: unknown = node.items.at(-1);
    if (isPair(last)) {
      const value = isNode(last.value) ? last.value : undefined;
      if (value?.range) return contentEnd(value);
      return isNode(last.key) ? contentEnd(last.key) : 0;
    }
    if (isNode(last)) return contentEnd(last);
  }
  return node.range?.[1] ?? 0;
}

/** Offset after the last line of a node; block scalars already end with theirs. */
export function afterLines(source: string, node: Node): number {
  const end = contentEnd(node);
  return source[end - 1] === '\n' && end > lineStart(source, node.range?.[0] ?? 0) && isBlockScalar(node)
    ? end
    : lineAfter(source, end);
}

export function isBlockScalar(node: Node): boolean {
  if (isCollection(node)) {
    const last: unknown = node.items.at(-1);
    const inner = isPair(last) ? last.value : last;
    return !node.flow && isNode(inner) && isBlockScalar(inner);
  }
  return isScalar(node) && (node.type === 'BLOCK_LITERAL' || node.type === 'BLOCK_FOLDED');
}

export function replace({ source, newline }: Yaml, node: Node, value: Plain): Splice[] {
  const [from = 0] = node.range ?? [];
  if (isScalar(node) && (value === null || typeof value !== 'object')) {
    const text = scalarText(value, quotesOf(node));
    return [
      {
        from,
        to: isBlockScalar(node) ? contentEnd(node) : (node.range?.[1] ?? from),
        text: isBlockScalar(node) ? text + newline : text,
      },
    ];
  }
  return [
    {
      from,
      to: contentEnd(node),
      text: isCollection(node) ? entryText(source, node, value, newline) : flowText(value),
    },
  ];
}

export function quotesOf(node: Scalar): 'single' | 'double' | undefined {
  return node.type === 'QUOTE_SINGLE' ? 'single' : node.type === 'QUOTE_DOUBLE' ? 'double' : undefined;
}

/** A value in the style of the one that stands (or stood) at its place or beside it. */
export function entryText(source: string, model: Node, value: Plain, newline: string): string {
  if (value === null || typeof value !== 'object')
    return scalarText(value, isScalar(model) ? quotesOf(model) : undefined);
  if (!isCollection(model) || model.flow || isEmpty(value)) return flowText(value, isPadded(source, model));
  const from = model.range?.[0] ?? 0;
  return blockText(value, ' '.repeat(from - lineStart(source, from)), newline);
}

export function isEmpty(value: Plain): boolean {
  return value !== null && typeof value === 'object' && Object.keys(value).length === 0;
}

export function isPadded(source: string, node: Node): boolean {
  return isMap(node) && /^\{\s/.test(source.slice(node.range?.[0] ?? 0));
}

/** A line end where the text before an offset has none. */
export function lineBreakBefore({ source, newline }: Yaml, offset: number): string {
  return offset > 0 && source[offset - 1] !== '\n' ? newline : '';
}

export function colonAfter(source: string, pair: Pair): number {
  const keyEnd = isNode(pair.key) ? (pair.key.range?.[1] ?? 0) : 0;
  return source.indexOf(':', keyEnd) + 1;
}
