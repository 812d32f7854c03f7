import { type Document, isMap, isNode, isSeq, type YAMLMap } from 'yaml';
import { firstLine, parseYaml } from '../read/index.ts';
import { fail, ok, type Parsed } from '../time/index.ts';
import { applySplices, lineEnd, lineStart, type Splice, withoutMark } from './splice.ts';

export type { Path } from './yaml-nodes.ts';

import { insertEntries, putList, reconcile, removeEntries } from './yaml-list.ts';
import {
  afterPair,
  colonAfter,
  contentEnd,
  endOfPair,
  indentOf,
  isEmptyNode,
  keyOf,
  lineBreakBefore,
  type Path,
  replace,
  startOfPair,
  type Yaml,
} from './yaml-nodes.ts';
import { flowText, type Plain, scalarText, withoutGaps } from './yaml-text.ts';

/**
 * Sets the value at a path; a key that is not there is added at the end of its map.
 * Comments, quotes, layout and every other value stay as they are.
 *
 * @returns the new text; refused when the text is not sound YAML or has no place for the path
 */
export function setYaml(source: string, path: Path, value: Plain): Parsed<string> {
  return change(source, path, value, (yaml) => {
    const node = yaml.document.getIn(path, true);
    if (isNode(node) && node.range && !isEmptyNode(yaml.source, node)) return replace(yaml, node, value);
    return addKey(yaml, path, value);
  });
}

/** Takes out a key or a list entry with its lines. A list or map that becomes empty stays, as `[]` or `{}`. */
export function removeYaml(source: string, path: Path): Parsed<string> {
  return change(source, path, undefined, (yaml) => {
    const last = path.at(-1);
    const parent = yaml.document.getIn(path.slice(0, -1), true);
    if (isSeq(parent) && typeof last === 'number' && last < parent.items.length)
      return removeEntries(yaml, parent, [last]);
    if (isMap(parent)) {
      const index = parent.items.findIndex((pair) => keyOf(pair) === String(last));
      if (index >= 0) return removePair(yaml, parent, index);
    }
    return undefined;
  });
}

/** Puts entries into a list, before the one at `index`; a list that is not there is made. */
export function insertYaml(source: string, path: Path, index: number, ...values: readonly Plain[]): Parsed<string> {
  return change(source, undefined, undefined, (yaml) => {
    const list = yaml.document.getIn(path, true);
    if (!isSeq(list) || list.items.length === 0) return putList(yaml, path, list, values) ?? addKey(yaml, path, values);
    return insertEntries(yaml, list, Math.min(index, list.items.length), values);
  });
}

/**
 * Makes a list hold these entries by the fewest changes: entries that stay keep their lines and comments, a changed
 * one is changed in its place.
 */
export function setYamlList(source: string, path: Path, wanted: readonly Plain[]): Parsed<string> {
  return change(source, path, wanted, (yaml) => {
    const list = yaml.document.getIn(path, true);
    if (!isSeq(list) || list.items.length === 0 || wanted.length === 0)
      return putList(yaml, path, list, wanted) ?? addKey(yaml, path, wanted);
    if (list.flow) return replace(yaml, list, wanted);
    return reconcile(yaml, list, wanted);
  });
}

/** Parses, splices, and parses again: what is written is known to say what was wanted. */
function change(
  marked: string,
  path: Path | undefined,
  wanted: Plain | undefined,
  plan: (yaml: Yaml) => readonly Splice[] | undefined,
): Parsed<string> {
  const [mark, source] = withoutMark(marked);
  const document = parseYaml(source, { keepSourceTokens: true });
  const [error] = document.errors;
  if (error)
    return fail(`the file is not sound YAML: ${firstLine(error.message)}`, 'mend the file by hand, then try again');
  const splices = plan({ source, document, newline: lineEnd(source) });
  const spot = (path ?? []).join('/');
  if (!splices) return fail(`the file has no place for ${spot || 'that value'}`, 'look at what stands there');
  const text = applySplices(source, splices);
  const check = parseYaml(text);
  const found: unknown =
    check.errors.length > 0 ? check.errors : path && (check.toJS() === null ? undefined : valueAt(check, path));
  const same = wanted === undefined || JSON.stringify(found) === JSON.stringify(withoutGaps(wanted));
  if (check.errors.length > 0 || !same)
    return fail(`${spot || 'the value'} is written in a way that cannot be changed safely`, 'change it by hand');
  return ok(mark + text);
}

function valueAt(document: Document, path: Path): unknown {
  const node = document.getIn(path, true);
  return isNode(node) ? node.toJS(document) : node;
}

/** Adds the key that is missing, with whatever of the path below it is missing too. */
function addKey(yaml: Yaml, path: Path, value: Plain): Splice[] | undefined {
  for (let depth = path.length - 1; depth >= 0; depth--) {
    const parent = depth === 0 ? yaml.document.contents : yaml.document.getIn(path.slice(0, depth), true);
    const key = path[depth];
    const rest = path.slice(depth + 1).reduceRight<Plain>((inner, part) => ({ [part]: inner }), value);
    if (isMap(parent)) return putPair(yaml, parent, String(key), rest);
    if (isSeq(parent)) return key === parent.items.length ? insertEntries(yaml, parent, key, [rest]) : undefined;
    if (depth === 0 && (!isNode(parent) || isEmptyNode(yaml.source, parent)))
      return [
        {
          from: yaml.source.length,
          to: yaml.source.length,
          text: `${lineBreakBefore(yaml, yaml.source.length)}${scalarText(String(key))}: ${flowText(rest)}${yaml.newline}`,
        },
      ];
  }
  return undefined;
}

function putPair(yaml: Yaml, map: YAMLMap, key: string, value: Plain): Splice[] {
  const { source, newline } = yaml;
  const known = map.items.find((pair) => keyOf(pair) === key);
  if (known) {
    const colon = colonAfter(source, known);
    return [{ from: colon, to: colon, text: ` ${flowText(value)}` }];
  }
  const text = `${scalarText(key)}: ${flowText(value)}`;
  const last = map.items.at(-1);
  if (map.flow || !last) {
    const close = contentEnd(map) - 1;
    if (!last) return [{ from: close, to: close, text }];
    const end = endOfPair(last);
    return [{ from: end, to: end, text: `, ${text}` }];
  }
  const end = afterPair(source, last);
  return [{ from: end, to: end, text: `${lineBreakBefore(yaml, end)}${indentOf(source, map)}${text}${newline}` }];
}

function removePair({ source }: Yaml, map: YAMLMap, index: number): Splice[] {
  const pair = map.items[index];
  const next = map.items[index + 1];
  const before = map.items[index - 1];
  const from = startOfPair(pair);
  if (map.items.length === 1) {
    const [start = 0] = map.range ?? [];
    return [{ from: start, to: contentEnd(map), text: '{}' }];
  }
  if (map.flow)
    return next
      ? [{ from, to: startOfPair(next), text: '' }]
      : [{ from: endOfPair(before), to: endOfPair(pair), text: '' }];
  const start = lineStart(source, from);
  if (source.slice(start, from).trim() !== '' && next) return [{ from, to: startOfPair(next), text: '' }];
  return [{ from: start, to: afterPair(source, pair), text: '' }];
}
