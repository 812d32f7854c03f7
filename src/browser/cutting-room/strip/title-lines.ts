/**
 * A title in lines of a width, broken between words; a word that is wider than a line is broken where the line ends.
 * Where there is more than the lines take, the last ends with an ellipsis.
 *
 * @param widthOf width of a text, in the same unit as `width`
 */
export function titleLines(title: string, width: number, most: number, widthOf: (text: string) => number): string[] {
  const lines: string[] = [];
  let rest = title.trim();
  while (rest !== '' && lines.length < most) {
    const fits = mostThatFits(rest, width, widthOf);
    if (fits === rest.length) {
      lines.push(rest);
      rest = '';
    } else if (lines.length === most - 1) {
      lines.push(`${rest.slice(0, mostThatFits(rest, width - widthOf('…'), widthOf)).trimEnd()}…`);
      return lines;
    } else {
      // At least one sign a line, however narrow it is.
      const end = lastBreak(rest, fits) || Math.max(1, fits);
      lines.push(rest.slice(0, end).trimEnd());
      rest = rest.slice(end).trimStart();
    }
  }
  return lines;
}

/** How many signs of a text are within a width. */
function mostThatFits(text: string, width: number, widthOf: (text: string) => number): number {
  let low = 0;
  let high = text.length;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (widthOf(text.slice(0, middle)) <= width) low = middle;
    else high = middle - 1;
  }
  // Never between the two halves of one sign.
  const code = low < text.length ? (text.codePointAt(low - 1) ?? 0) : 0;
  return code > 0xffff ? low - 1 : low;
}

/** Where a line of so many signs at most ends, between words; 0 where it has no such place. */
function lastBreak(text: string, most: number): number {
  if (text[most] === ' ') return most;
  return (
    Math.max(text.lastIndexOf(' ', most - 1), text.lastIndexOf('-', most - 1), text.lastIndexOf('/', most - 1)) + 1
  );
}
