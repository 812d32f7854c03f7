import { type Alias, type Document, isAlias, isCollection, isPair, isScalar, type Node, type YAMLError } from 'yaml';
import { firstLine } from './words.ts';

/** Something that keeps a YAML text from being read: offsets in the text, what it is, what to type. */
export interface YamlFault {
  readonly start: number;
  readonly end: number;
  readonly message: string;
  readonly help: string;
}

/** As many values as a text may stand for once each alias is written out: a spec table of a whole shop has some 10 000. */
const MOST_VALUES = 200_000;

const HELP: Readonly<Partial<Record<YAMLError['code'], string>>> = {
  TAB_AS_INDENT: 'indent with spaces, two for each level; an editor can change all tabs of a file at once',
  BAD_ALIAS: 'put quotes round a text that begins with *',
  DUPLICATE_KEY: 'leave one of the two out; a list has - before each entry',
  MISSING_CHAR: 'close the quotes or brackets that were opened on this line or above it',
  BAD_INDENT: 'keys that belong together begin in the same column',
  MULTIPLE_DOCS: 'a file holds one thing: leave out the --- in the middle',
  RESOURCE_EXHAUSTION: 'no content file needs so much: take out what was pasted into it by mistake, or part the file',
  UNEXPECTED_TOKEN: 'put quotes round a text that holds : # [ ] { } or begins with a sign',
};

/** Each of these stands for itself; of every other kind only the first counts, since the rest follows from it. */
const APART: ReadonlySet<string> = new Set(['DUPLICATE_KEY']);

/** So many characters, tabs themselves, lie between the place of a tab and its key. */
const BEHIND_A_TAB = 8;

/** What the parser could not read, one fault for one cause, in the order of the text. */
export function syntaxFaults(errors: readonly YAMLError[]): YamlFault[] {
  const [first, ...others] = errors.filter(({ code }) => !APART.has(code));
  const tabbed = [first, ...others].filter((error) => error?.code === 'TAB_AS_INDENT');
  const tabs = tabbed.length;
  // A key behind a tab has slipped among the keys above it: twice there because of the tab.
  const slipped = ({ pos }: YAMLError) =>
    tabbed.some((tab) => tab !== undefined && pos[0] >= tab.pos[0] && pos[0] - tab.pos[0] <= BEHIND_A_TAB);
  return [...(first ? [first] : []), ...errors.filter((error) => APART.has(error.code) && !slipped(error))]
    .toSorted((a, b) => a.pos[0] - b.pos[0])
    .map(({ code, pos, message }) => ({
      start: pos[0],
      end: pos[1],
      message:
        code === 'TAB_AS_INDENT'
          ? `a tab indents ${tabs > 1 ? `this line and ${tabs - 1} more` : 'this line'}`
          : code === 'RESOURCE_EXHAUSTION' && !/^(?:More than|The file)/.test(message)
            ? 'brackets or dashes stand inside each other too deep'
            : lower(message),
      help: HELP[code] ?? 'check quotes, indentation and colons on this line and the one before',
    }));
}

/**
 * What is sound as YAML and still stands for no plain value: aliases of nothing, of themselves, or of too much;
 * merges; keys that are no text.
 */
export function meaningFaults(doc: Document.Parsed): YamlFault[] {
  const faults: YamlFault[] = [];
  const at = (node: Node, message: string, help: string) => {
    const [start = 0, end = 0] = node.range ?? [];
    faults.push({ start, end, message, help });
  };
  const anchors = new Map<string, Node>();
  const open: Node[] = [];
  /** Values that a node stands for, aliases written out. */
  const sizes = new Map<Node, number>();

  const alias = (node: Alias): number => {
    const named = anchors.get(node.source);
    if (!named)
      at(node, `no anchor &${node.source} stands above *${node.source}`, 'put quotes round a text that begins with *');
    else if (open.includes(named))
      at(node, `*${node.source} stands inside what it names, so it would never end`, 'write out what is meant');
    else {
      const size = sizes.get(named) ?? 1;
      if (size > MOST_VALUES)
        at(node, `*${node.source} stands for more than ${MOST_VALUES} values`, 'write out what is meant');
      return size;
    }
    return 1;
  };

  const measure = (node: unknown): number => {
    if (isAlias(node)) return alias(node);
    if (isPair(node)) {
      const { key, value } = node;
      if (isScalar(key) && key.value === '<<' && (isAlias(value) || isCollection(value)))
        at(key as Node, '<< takes nothing over here', 'write out the keys that are meant');
      else if (isCollection(key))
        at(key as Node, 'a key has to be plain text', 'put quotes round it, or write it without brackets');
      return measure(key) + measure(value);
    }
    if (!isCollection(node)) {
      if (isScalar(node) && node.anchor) anchors.set(node.anchor, node);
      return 1;
    }
    // Its anchor counts from here on, so that an alias inside it is seen as a circle.
    if (node.anchor) anchors.set(node.anchor, node);
    open.push(node);
    let size = 1;
    for (const item of node.items) size = Math.min(size + measure(item), MOST_VALUES + 1);
    open.pop();
    sizes.set(node, size);
    return size;
  };
  if (measure(doc.contents) > MOST_VALUES && faults.length === 0)
    faults.push({
      start: 0,
      end: 0,
      message: `the file stands for more than ${MOST_VALUES} values`,
      help: 'write out what is meant',
    });
  return faults;
}

function lower(message: string): string {
  const line = firstLine(message);
  return line.charAt(0).toLowerCase() + line.slice(1).replace(/\.$/, '');
}
