/** A name written into a block of the timeline picture. */
export interface NameInBlock {
  /** Written upwards, where the block is too narrow for words across it. */
  readonly upright: boolean;
  readonly lines: readonly string[];
}

/** Widths are reckoned from the mean width of a letter of the site's face, in shares of the size: measured on its names. */
const LETTER = 0.56;
const LEADING = 1.08;
/** A block narrower than so many letters has its name upwards. */
const ACROSS_FROM = 9;

/**
 * Breaks the name of a block into lines that stay inside of it; what finds no room ends in an ellipsis. Nothing where
 * not even one line fits.
 *
 * @param width, height of the block, in units of the picture
 * @param size of the letters, in the same units
 */
export function nameInBlock(name: string, width: number, height: number, size: number): NameInBlock | undefined {
  const upright = width < ACROSS_FROM * LETTER * size;
  const [along, across] = upright ? [height, width] : [width, height];
  const letters = Math.floor(along / (LETTER * size));
  const most = Math.floor(across / (LEADING * size));
  if (letters < 3 || most < 1) return undefined;
  const lines: string[] = [];
  for (const word of name.split(/\s+/)) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= letters) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  const cut = (line: string) => `${line.slice(0, letters - 1).replace(/[\s,;:.]+$/, '')}…`;
  const fitting = lines.slice(0, most).map((line) => (line.length > letters ? cut(line) : line));
  const end = fitting.at(-1);
  if (lines.length > most && end !== undefined && !end.endsWith('…'))
    fitting[fitting.length - 1] = cut(end.length < letters ? `${end} ` : end);
  return { upright, lines: fitting };
}
