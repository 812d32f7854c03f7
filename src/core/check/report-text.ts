import type { Diagnostic, Place, Severity } from '../model/index.ts';
import { plural } from '../read/index.ts';
import { count } from './check.ts';

/** How a word of the report is set off; plain text when it gives the word back. */
export type Paint = (what: Severity | 'quiet' | 'place', text: string) => string;

/**
 * Diagnostics for people: place, rule, the line with a caret under it, message, why, help.
 *
 * @param texts content files by path, for the excerpts
 * @param shownAs how a content path is written, so that a terminal can open it
 */
export function reportText(
  diagnostics: readonly Diagnostic[],
  texts: ReadonlyMap<string, string>,
  shownAs: (file: string) => string = (file) => file,
  paint: Paint = (_, text) => text,
): string {
  const parts = diagnostics.map((d) => one(d, texts, shownAs, paint));
  return [...parts, summary(diagnostics)].join('\n\n');
}

/** One line that counts. */
export function summary(diagnostics: readonly Diagnostic[]): string {
  const { error, warning, info } = count(diagnostics);
  const words = [
    [error, 'error'],
    [warning, 'warning'],
    [info, 'note'],
  ] as const;
  const told = words.filter(([n]) => n > 0).map(([n, word]) => plural(n, word));
  return told.length === 0 ? 'no problems found' : told.join(', ');
}

function one(
  d: Diagnostic,
  texts: ReadonlyMap<string, string>,
  shownAs: (file: string) => string,
  paint: Paint,
): string {
  const lines = [`${paint('place', position(d.place, shownAs))}  ${paint(d.severity, d.severity)}  ${d.rule}`];
  lines.push(...excerpt(d.place, texts, (text) => paint(d.severity, text)));
  lines.push(`  ${d.message}`, `  ${paint('quiet', 'why ')}  ${d.why}`, `  ${paint('quiet', 'help')}  ${d.help}`);
  for (const { place, message } of d.also ?? [])
    lines.push(`  ${paint('quiet', 'also')}  ${position(place, shownAs)}  ${message}`);
  if (d.see) lines.push(`  ${paint('quiet', 'see ')}  ${position(d.see.place, shownAs)}  ${d.see.note}`);
  return lines.join('\n');
}

function position(place: Place, shownAs: (file: string) => string): string {
  return `${shownAs(place.file)}:${place.start.line}:${place.start.column}`;
}

/** The line of a place with marks under it; nothing for a file that is not a text, or an empty line. */
function excerpt(place: Place, texts: ReadonlyMap<string, string>, mark: (text: string) => string): string[] {
  const line = texts
    .get(place.file)
    ?.replace(/^\uFEFF/, '')
    .split(/\r?\n/)[place.start.line - 1];
  if (line === undefined || line.trim() === '') return [];
  // A very long line is shown around the place only.
  const from = Math.max(0, place.start.column - 1 - 80);
  const shown = line.slice(from, from + 160).replaceAll('\t', ' ');
  const end = place.end.line === place.start.line ? place.end.column : line.length + 1;
  const width = Math.max(1, Math.min(end, from + 160 + 1) - place.start.column);
  const number = String(place.start.line);
  const gutter = ' '.repeat(number.length);
  return [
    `  ${number} │ ${shown}`,
    `  ${gutter} │ ${' '.repeat(place.start.column - 1 - from)}${mark('~'.repeat(width))}`,
  ];
}
