import { diffArrays } from 'diff';
import { isMap, isNode, isSeq, type Node, type YAMLSeq } from 'yaml';
import { lineAfter, lineStart, type Splice } from './splice.ts';
import {
  afterLines,
  afterPair,
  colonAfter,
  contentEnd,
  endOfPair,
  entryText,
  indentOf,
  isEmptyNode,
  keyOf,
  lineBreakBefore,
  type Path,
  replace,
  type Yaml,
} from './yaml-nodes.ts';
import { flowText, type Plain, scalarText, withoutGaps } from './yaml-text.ts';

/** Gives a path its whole list, where there is none or an empty one; nothing where its map is missing or in flow style. */
export function putList(yaml: Yaml, path: Path, present: unknown, entries: readonly Plain[]): Splice[] | undefined {
  const { source, document, newline } = yaml;
  if (isSeq(present) && !present.flow && present.items.length > 0)
    return entries.length === 0 ? emptyList(yaml, path, present) : undefined;
  if (isSeq(present) && present.items.length > 0) return replace(yaml, present, entries);
  const parent = path.length === 1 ? document.contents : document.getIn(path.slice(0, -1), true);
  const key = String(path.at(-1));
  if (entries.length === 0 || !isMap(parent) || parent.flow)
    return isNode(present) && present.range && !isEmptyNode(source, present)
      ? replace(yaml, present, entries)
      : undefined;
  const margin = indentOf(source, parent);
  const indent = `${margin}  `;
  const lines = entries.map((entry) => `${indent}- ${flowText(entry)}${newline}`).join('');
  const known = parent.items.find((pair) => keyOf(pair) === key);
  if (known) {
    const colon = colonAfter(source, known);
    const valueEnd =
      isNode(known.value) && isEmptyNode(source, known.value) ? colon : Math.max(colon, endOfPair(known));
    const next = lineAfter(source, valueEnd);
    return [
      { from: colon, to: valueEnd, text: '' },
      { from: next, to: next, text: `${lineBreakBefore(yaml, next)}${lines}` },
    ];
  }
  const end = afterPair(source, parent.items.at(-1));
  return [
    {
      from: end,
      to: end,
      text: `${lineBreakBefore(yaml, end)}${margin}${scalarText(key)}:${newline}${lines}`,
    },
  ];
}

function emptyList(yaml: Yaml, path: Path, list: YAMLSeq): Splice[] | undefined {
  const parent = path.length === 1 ? yaml.document.contents : yaml.document.getIn(path.slice(0, -1), true);
  const pair = isMap(parent) ? parent.items.find((item) => keyOf(item) === String(path.at(-1))) : undefined;
  if (!pair) return undefined;
  const colon = colonAfter(yaml.source, pair);
  return [
    { from: colon, to: colon, text: ' []' },
    ...entryLines(yaml, list).map(({ from, to }) => ({ from, to, text: '' })),
  ];
}

/** The lines of each entry of a block list, its `-` included. */
function entryLines({ source }: Yaml, list: YAMLSeq): { from: number; to: number; dash: number }[] {
  const token = list.srcToken;
  if (token?.type !== 'block-seq') return [];
  return list.items.map((item, i) => {
    const dash = token.items[i]?.start.find((part) => part.type === 'seq-item-ind')?.offset ?? 0;
    const to = isNode(item) && !isEmptyNode(source, item) ? afterLines(source, item) : lineAfter(source, dash);
    return { from: lineStart(source, dash), to, dash };
  });
}

/** True where every entry has lines of its own: `- - a` has not. */
function haveOwnLines({ source }: Yaml, lines: readonly { from: number; dash: number }[]): boolean {
  return lines.every(({ from, dash }) => source.slice(from, dash).trim() === '');
}

/** Takes out entries of a list. */
export function removeEntries(yaml: Yaml, list: YAMLSeq, indexes: readonly number[]): Splice[] | undefined {
  const keep = list.items
    .filter((_, i) => !indexes.includes(i))
    .map((item) => (isNode(item) ? item.toJS(yaml.document) : item) as Plain);
  const lines = entryLines(yaml, list);
  if (list.flow || keep.length === 0 || lines.length === 0 || !haveOwnLines(yaml, lines)) {
    const [start = 0] = list.range ?? [];
    return [{ from: start, to: contentEnd(list), text: flowText(keep) }];
  }
  return indexes.flatMap((i) => (lines[i] ? [{ from: lines[i].from, to: lines[i].to, text: '' }] : []));
}

/** Puts entries into a list before the one at `index`, in the style of their neighbour. */
export function insertEntries(
  yaml: Yaml,
  list: YAMLSeq,
  index: number,
  entries: readonly Plain[],
): Splice[] | undefined {
  const { source, newline } = yaml;
  const lines = entryLines(yaml, list);
  if (list.flow || lines.length === 0 || !haveOwnLines(yaml, lines)) {
    const all = list.items.map((item) => (isNode(item) ? item.toJS(yaml.document) : item) as Plain);
    const [start = 0] = list.range ?? [];
    return [{ from: start, to: contentEnd(list), text: flowText(all.toSpliced(index, 0, ...entries)) }];
  }
  const beside = index > 0 ? lines[index - 1] : lines[0];
  const model = list.items[index > 0 ? index - 1 : 0];
  if (!beside || !isNode(model)) return undefined;
  const indent = source.slice(beside.from, beside.dash);
  const at = index > 0 ? beside.to : beside.from;
  const text = entries.map((entry) => `${indent}- ${entryText(source, model, entry, newline)}${newline}`).join('');
  return [{ from: at, to: at, text: lineBreakBefore(yaml, at) + text }];
}

/** Makes a block list hold other entries; what stays keeps its lines. */
export function reconcile(yaml: Yaml, list: YAMLSeq, wanted: readonly Plain[]): Splice[] | undefined {
  const lines = entryLines(yaml, list);
  if (lines.length === 0 || !haveOwnLines(yaml, lines)) return replace(yaml, list, wanted);
  const has = list.items.map((item) => JSON.stringify(isNode(item) ? item.toJS(yaml.document) : item));
  const wants = wanted.map((entry) => JSON.stringify(withoutGaps(entry)));
  const splices: Splice[] = [];
  const parts = diffArrays(has, wants);
  let old = 0;
  let fresh = 0;
  for (let i = 0; i < parts.length; i++) {
    const part = parts[i];
    if (!part) continue;
    if (!part.added && !part.removed) {
      old += part.value.length;
      fresh += part.value.length;
      continue;
    }
    const beside = parts[i + 1];
    const paired = beside && beside.added !== part.added && (beside.added || beside.removed) ? beside : undefined;
    if (paired) i++;
    const gone = part.removed ? part.value.length : paired?.removed ? paired.value.length : 0;
    const come = part.added ? part.value.length : paired?.added ? paired.value.length : 0;
    const both = Math.min(gone, come);
    for (let k = 0; k < both; k++) {
      const node = list.items[old + k];
      if (isNode(node)) splices.push(...changeEntry(yaml, node, wanted[fresh + k] ?? null));
    }
    for (let k = both; k < gone; k++) {
      const line = lines[old + k];
      if (line) splices.push({ from: line.from, to: line.to, text: '' });
    }
    if (come > both)
      splices.push(...(insertEntries(yaml, list, old + gone, wanted.slice(fresh + both, fresh + come)) ?? []));
    old += gone;
    fresh += come;
  }
  return splices;
}

/** Changes one entry in its place: only the values that differ where the keys are the same. */
function changeEntry(yaml: Yaml, node: Node, value: Plain): Splice[] {
  if (isMap(node) && value !== null && typeof value === 'object' && !Array.isArray(value)) {
    const wanted = withoutGaps(value) as Readonly<Record<string, Plain>>;
    const keys = node.items.map(keyOf);
    if (keys.length === Object.keys(wanted).length && keys.every((key) => key in wanted))
      return node.items.flatMap((pair) => {
        const wants = wanted[keyOf(pair)] ?? null;
        if (!isNode(pair.value) || JSON.stringify(pair.value.toJS(yaml.document)) === JSON.stringify(wants)) return [];
        return replace(yaml, pair.value, wants);
      });
  }
  return replace(yaml, node, value);
}
