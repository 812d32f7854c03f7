import {
  type Document,
  isCollection,
  isMap,
  isPair,
  isScalar,
  type ParseOptions,
  parseDocument,
  YAMLParseError,
} from 'yaml';

/** Keys told as standing twice in one text; whoever has more of them has one fault. */
const MOST_TWICE = 100;

/** Far above what content needs: the spec table of a machine with a thousand rows has some 10 000 lines, three deep. */
const MOST_LINES = 50_000;
const MOST_DEPTH = 1_000;
/** Exclamation marks in a file: each may begin a tag, of which content has none. */
const MOST_TAGS = 10_000;
/** Colons with a space behind in one line: each may be a key. */
const MOST_COLONS = 1_000;
const DASHES = new RegExp(`^[ \\t]*(?:[-?:][ \\t]+){${MOST_DEPTH}}`, 'm');

/**
 * A YAML text as a document, with an error for each key that stands twice in its map. The parser's own look for them
 * compares every key with every other, which takes minutes for a map of 100 000; and it is slow where brackets stand inside
 * each other by the thousand, and where tags or keys in one line follow each other without end: a text that is over the
 * limits is not parsed, but told as an error.
 */
export function parseYaml(source: string, options: Pick<ParseOptions, 'keepSourceTokens'> = {}): Document.Parsed {
  const over = overLimits(source);
  if (over) {
    const nothing = parseDocument('');
    nothing.errors.push(over);
    return nothing;
  }
  const document = parseDocument(source, { ...options, prettyErrors: false, version: '1.2', uniqueKeys: false });
  const open: unknown[] = [document.contents];
  const twice: YAMLParseError[] = [];
  for (let node = open.pop(); node !== undefined && twice.length < MOST_TWICE; node = open.pop()) {
    if (isPair(node)) open.push(node.value ?? null, node.key);
    if (!isCollection(node)) continue;
    // Not spread: a list may be longer than what a call takes.
    for (const item of node.items) open.push(item);
    if (!isMap(node)) continue;
    const seen = new Set<unknown>();
    for (const { key } of node.items) {
      if (!isScalar(key)) continue;
      const [start = 0, end = 0] = key.range ?? [];
      if (seen.has(key.value)) twice.push(new YAMLParseError([start, end], 'DUPLICATE_KEY', 'Map keys must be unique'));
      seen.add(key.value);
    }
  }
  document.errors.push(...twice.slice(0, MOST_TWICE));
  return document;
}

/** Quotes and comments are counted like the rest: what a person writes is far below the limits in any case. */
function overLimits(source: string): YAMLParseError | undefined {
  const error = (start: number, message: string) =>
    new YAMLParseError([start, start + 1], 'RESOURCE_EXHAUSTION', message);
  let [depth, lines, tags, colons] = [0, 1, 0, 0];
  for (let at = 0; at < source.length; at++) {
    const letter = source[at];
    if (letter === '[' || letter === '{') depth++;
    else if (depth > 0 && (letter === ']' || letter === '}')) depth--;
    else if (letter === '!') tags++;
    else if (letter === ':' && source[at + 1] === ' ') colons++;
    else if (letter === '\n') [lines, colons] = [lines + 1, 0];
    if (depth > MOST_DEPTH) return error(at, `More than ${MOST_DEPTH} brackets are opened and not shut`);
    if (tags > MOST_TAGS) return error(at, `The file has more than ${MOST_TAGS} exclamation marks`);
    if (colons > MOST_COLONS) return error(at, `More than ${MOST_COLONS} colons stand in one line`);
    if (lines > MOST_LINES) return error(at, `The file has more than ${MOST_LINES} lines`);
  }
  const dashes = DASHES.exec(source);
  return dashes ? error(dashes.index, `More than ${MOST_DEPTH} dashes begin one line`) : undefined;
}
