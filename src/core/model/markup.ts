/** Plain HTML that a lesson may write as it is, for what Markdown has no sign for. */
interface PlainRow {
  readonly name: string;
  readonly attributes: readonly string[];
  /** Stands among words, as against round blocks. */
  readonly inline: boolean;
  readonly means: string;
}

/** Every other element is refused. All of them may say their language: `lang`. */
export const PLAIN_HTML: readonly PlainRow[] = [
  { name: 'abbr', attributes: ['title'], inline: true, means: 'a short form, its title the long one' },
  { name: 'br', attributes: [], inline: true, means: 'a new line' },
  { name: 'kbd', attributes: [], inline: true, means: 'a key or button to press' },
  { name: 'mark', attributes: [], inline: true, means: 'words set off for reference' },
  { name: 'small', attributes: [], inline: true, means: 'a side remark' },
  { name: 'span', attributes: [], inline: true, means: 'words in another language, with lang' },
  { name: 'sub', attributes: [], inline: true, means: 'set low' },
  { name: 'sup', attributes: [], inline: true, means: 'set high' },
  { name: 'details', attributes: ['open'], inline: false, means: 'something to fold out' },
  { name: 'summary', attributes: [], inline: false, means: 'the line that stays in sight, first in details' },
  { name: 'dl', attributes: [], inline: false, means: 'a list of terms' },
  { name: 'dt', attributes: [], inline: false, means: 'a term of such a list' },
  { name: 'dd', attributes: [], inline: false, means: 'what the term means' },
  { name: 'figure', attributes: [], inline: false, means: 'a picture with its words' },
  { name: 'figcaption', attributes: [], inline: false, means: 'the words of a figure' },
];

const byName = new Map(PLAIN_HTML.map((row) => [row.name, row]));

/** The plain element of that name; nothing when a lesson may not write it. */
export function plainElement(name: string): PlainRow | undefined {
  return byName.get(name);
}

/** Elements that Markdown itself makes; with {@link PLAIN_HTML} all that the text of a lesson can become. */
export const MARKDOWN_TAGS: ReadonlySet<string> = new Set([
  ...['p', 'h1', 'h2', 'h3', 'h4', 'h5', 'h6', 'em', 'strong', 'del', 'code', 'pre', 'br', 'hr', 'blockquote'],
  ...['ul', 'ol', 'li', 'input', 'a', 'img', 'sup', 'section'],
  ...['table', 'thead', 'tbody', 'tr', 'th', 'td'],
]);
