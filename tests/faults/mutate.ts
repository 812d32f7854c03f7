import fc from 'fast-check';
import { isMap, isPair, isScalar, isSeq, parseDocument, visit } from 'yaml';

/** One change to a text: which kind, where, and two choices more. Each is a fraction from 0 to under 1. */
export interface Mutation {
  readonly kind: number;
  readonly at: number;
  readonly to: number;
  readonly what: number;
}

const fraction = fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true });

/** One to four changes, one after the other. */
export const mutations: fc.Arbitrary<readonly Mutation[]> = fc.array(
  fc.record({ kind: fraction, at: fraction, to: fraction, what: fraction }),
  { minLength: 1, maxLength: 4 },
);

/** What slips, word processors, spreadsheets, cameras and ill will put into a text. */
const SPLINTERS: readonly string[] = [
  ...[
    '*',
    '&',
    '*x',
    '&x ',
    '<<: ',
    '!',
    '!!binary ',
    '|',
    '>',
    '%',
    '@',
    '`',
    '#',
    ' #',
    '? ',
    '- ',
    '---\n',
    '...\n',
  ],
  ...[
    ':',
    ': ',
    '{',
    '}',
    '[',
    ']',
    ',',
    '"',
    "'",
    '\\',
    '“',
    '’',
    '«',
    '{{',
    '$(x)',
    '{1+1}',
    '<',
    '</',
    '/>',
    '<!--',
  ],
  ...['<script>', '<Warning>', '</Warning>', '<Spec of=', '<Cue at="0:00:01" />', '\n# ', '\n## ', '\n### ', '\n---\n'],
  ...['import x from "y"\n', 'export const a = 1\n', '$$', '~~', '**', '[a](', '![', '[^1]', '|-|', '```\n', '<a b>'],
  ...['\t', '\n\t', '\0', '\uFEFF', '\uFFFD', '\r', '\r\n', '\n\n\n', '\u2028', '\u00A0', '\u200B', '\u202E', '\v'],
  ...[
    '\uD800',
    '\uDC00',
    'é',
    '漢',
    '🛠',
    'İ',
    '\u0301',
    ' '.repeat(60),
    'x'.repeat(3000),
    '['.repeat(300),
    '- '.repeat(200),
  ],
  ...['null', '~', 'true', 'no', 'NaN', '.nan', '.inf', '-.inf', '-0', '0x1F', '0o17', '1e999', '-1', '1_000', '0,5'],
  ...[
    '9'.repeat(40),
    '99999999999999999999',
    '1e-400',
    '½',
    '١٢',
    '∞',
    '±',
    '2019-',
    '-2021',
    '2025-2019',
    '0000',
    '9999',
  ],
  ...[
    '__proto__',
    'constructor',
    'toString',
    'hasOwnProperty',
    'length',
    'undefined',
    '[object Object]',
    '$&',
    '$1',
    '%s',
  ],
  ...[
    '0:00:75',
    '99:59:59:99',
    '01:00:00;00',
    '-0:00:01',
    '0:00:00',
    '99999999:00:00',
    '24:00',
    '2026-02-30',
    '9999-12-31',
  ],
  ...[
    '../../etc/passwd',
    '/etc/passwd',
    'C:\\x',
    'con',
    'javascript:alert(1)',
    'file:///x',
    'https://x.example',
    'M8×',
    '3/8-',
  ],
  ...[
    '-->',
    ' --> ',
    '00:00:00.000 --> 00:00:00.000\n',
    'WEBVTT',
    'NOTE',
    'STYLE',
    '<v ',
    '<00:00:99.000>',
    '&nope;',
    ';',
  ],
  ...[
    '"OTIO_SCHEMA": ',
    'Clip.2',
    'TITLE: ',
    'FCM: DROP FRAME\n',
    '* FROM CLIP NAME: ',
    '[CHAPTER]\n',
    'TIMEBASE=0/0\n',
  ],
  ...['<!DOCTYPE x [<!ENTITY a "b">]>', '&a;', '<![CDATA[', '?>', 'torque', 'N·m', '98 N·m', 'twenty twenty', 'half a'],
];

/** Values of other kinds than the one that stood there. */
const OTHER_VALUES: readonly unknown[] = [
  ...[
    null,
    true,
    false,
    0,
    -1,
    1,
    0.5,
    1e21,
    -1e21,
    Number.NaN,
    Number.POSITIVE_INFINITY,
    2 ** 53,
    '',
    ' ',
    'x',
    '1',
    '-',
  ],
  ...[
    '__proto__',
    'toString',
    '0:00:00',
    '2026-12-05',
    '10:00',
    '98 N·m',
    'N·m',
    'a'.repeat(2000),
    [],
    {},
    [[]],
    [null],
    ['x'],
  ],
  ...[
    [1, 2, 3],
    { a: 1 },
    { id: 'x' },
    [{ id: 'x' }],
    { constructor: 1 },
    { min: 2, max: 1, unit: 'mm' },
    { nominal: 1 },
  ],
];

type Change = (text: string, mutation: Mutation) => string;

const place = (text: string, fraction: number) => Math.floor(fraction * (text.length + 1));
const choose = <T>(from: readonly T[], fraction: number): T => from[Math.floor(fraction * from.length)] as T;
/** From one place to the other, `most` letters at the longest. */
function stretch(text: string, { at, to }: Mutation, most = 80): [number, number] {
  const start = place(text, at);
  return [start, Math.min(text.length, start + Math.floor(to * most))];
}
function onLines(text: string, change: (lines: string[]) => void): string {
  const lines = text.split('\n');
  change(lines);
  return lines.join('\n');
}

const TEXT_CHANGES: readonly Change[] = [
  (text, { at, what }) => text.slice(0, place(text, at)) + choose(SPLINTERS, what) + text.slice(place(text, at)),
  (text, mutation) => {
    const [start, end] = stretch(text, mutation);
    return text.slice(0, start) + choose(SPLINTERS, mutation.what) + text.slice(end);
  },
  (text, mutation) => {
    const [start, end] = stretch(text, mutation);
    return text.slice(0, start) + text.slice(end);
  },
  (text, mutation) => {
    const [start, end] = stretch(text, mutation, 400);
    return text.slice(0, end) + text.slice(start, end) + text.slice(end);
  },
  (text, { at }) => text.slice(0, place(text, at)),
  (text, { at }) => text.slice(place(text, at)),
  (text, { at }) => onLines(text, (lines) => lines.splice(Math.floor(at * lines.length), 1)),
  (text, { at, to }) =>
    onLines(text, (lines) => {
      const [moved = ''] = lines.splice(Math.floor(at * lines.length), 1);
      lines.splice(Math.floor(to * lines.length), 0, moved);
    }),
  (text, { at, to }) =>
    onLines(text, (lines) => {
      const line = Math.floor(at * lines.length);
      lines[line] = ' '.repeat(Math.floor(to * 8)) + (lines[line] ?? '').trimStart();
    }),
  // A value of the file stands where another one was.
  (text, { at, to }) => {
    const words = [...text.matchAll(/[\p{L}\p{N}_.:-]+/gu)];
    if (words.length === 0) return text;
    const [old, other] = [choose(words, at), choose(words, to)];
    return text.slice(0, old.index) + other[0] + text.slice(old.index + old[0].length);
  },
  // Digits are other digits.
  (text, { at, what }) => {
    const numbers = [...text.matchAll(/\d+/g)];
    if (numbers.length === 0) return text;
    const old = choose(numbers, at);
    const fresh = choose(['0', '00', '1', '9', '60', '99', '100000', '9'.repeat(30), '-5', '0.0001', ''], what);
    return text.slice(0, old.index) + fresh + text.slice(old.index + old[0].length);
  },
  (text) => text.replaceAll('"', ''),
  (text) => text.replaceAll('\n', '\r\n'),
  (text, { what }) => (what < 0.5 ? text.replace(/^ +/gm, '\t') : text.replace(/^ +/gm, '')),
  // Stored in another encoding than it is read in.
  (text, { what }) => Buffer.from(text, what < 0.5 ? 'latin1' : 'utf16le').toString('utf8'),
  // Bytes that are damaged.
  (text, { at, to, what }) => {
    const bytes = Buffer.from(text, 'utf8');
    for (let i = 0; i <= to * 4 && bytes.length > 0; i++)
      bytes[Math.floor((at + i * 0.07) * bytes.length) % bytes.length] = Math.floor(what * 256 + i * 37) % 256;
    return bytes.toString('utf8');
  },
];

/** Another value, key, order or number of entries in what YAML or JSON holds; the text as it was where it holds nothing. */
const changeData: Change = (text, { at, to, what }) => {
  const doc = parseDocument(text, { logLevel: 'silent' });
  if (doc.errors.length > 0) return text;
  const nodes: unknown[] = [];
  visit(doc, { Node: (_, node) => void nodes.push(node), Pair: (_, pair) => void nodes.push(pair) });
  const node = choose(nodes, at);
  const fresh = () => doc.createNode(choose(OTHER_VALUES, what));
  if (isScalar(node)) node.value = choose(OTHER_VALUES, what);
  else if (isPair(node)) {
    if (to < 0.5) node.value = fresh();
    else
      node.key = doc.createNode(
        choose(['__proto__', 'toString', 'id', 'nominal', 'x', '', 'unit', 'years', 'file'], what),
      );
  } else if (isSeq(node) || isMap(node)) {
    const which = Math.floor(to * node.items.length);
    const entry = node.items[which];
    if (what < 0.3) node.items.splice(which, 1);
    else if (what < 0.6 && isSeq(node) && entry !== undefined) node.items.push(entry);
    else if (what < 0.8) node.items.length = 0;
    else node.items.reverse();
  }
  try {
    return doc.toString();
  } catch {
    return text;
  }
};

/** A text with changes made to it; the same changes give the same text. */
export function mutated(text: string, changes: readonly Mutation[], data: boolean): string {
  const kinds = data
    ? [...TEXT_CHANGES, ...Array.from({ length: TEXT_CHANGES.length }, () => changeData)]
    : TEXT_CHANGES;
  return changes.reduce((now, mutation) => choose(kinds, mutation.kind)(now, mutation), text);
}
