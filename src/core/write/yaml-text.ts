import { Document, isScalar, visit } from 'yaml';

/** Anything a content file can say. */
export type Plain = string | number | boolean | null | readonly Plain[] | { readonly [key: string]: Plain | undefined };

/** Words that YAML would read as something other than text, here or in older readers. */
const TAKEN = /^(true|false|null|yes|no|on|off|y|n|~)$/i;
const PLAIN_WORDS = /^[A-Za-z][\w./-]*( [\w./-]+)*$/;

/** A text as YAML, in the quotes it stood in before, or plain where it cannot be misread. */
export function scalarText(value: string | number | boolean | null, quotes?: 'single' | 'double'): string {
  if (typeof value !== 'string') return String(value);
  if (quotes === 'single' && !/[\n\r\t\\]/.test(value)) return `'${value.replaceAll("'", "''")}'`;
  if (quotes === undefined && PLAIN_WORDS.test(value) && !TAKEN.test(value)) return value;
  return JSON.stringify(value);
}

/** A value on one line: `{in: "0:03:10", out: "0:12:44.5"}`. */
export function flowText(value: Plain, padded = false): string {
  if (Array.isArray(value)) return `[${value.map((entry) => flowText(entry)).join(', ')}]`;
  if (value !== null && typeof value === 'object') {
    const pairs = Object.entries(value as Readonly<Record<string, Plain | undefined>>).flatMap(([key, entry]) =>
      entry === undefined ? [] : [`${scalarText(key)}: ${flowText(entry, padded)}`],
    );
    const edge = padded && pairs.length > 0 ? ' ' : '';
    return `{${edge}${pairs.join(', ')}${edge}}`;
  }
  return scalarText(value as string | number | boolean | null);
}

/** A value over several lines, each but the first behind `indent`. */
export function blockText(value: Plain, indent: string, newline: string): string {
  const document = new Document(withoutGaps(value));
  visit(document, {
    Scalar(key, node) {
      if (isScalar(node) && typeof node.value === 'string' && key !== 'key' && !node.value.includes('\n'))
        node.type = PLAIN_WORDS.test(node.value) && !TAKEN.test(node.value) ? 'PLAIN' : 'QUOTE_DOUBLE';
    },
  });
  const lines = document.toString({ lineWidth: 0 }).trimEnd().split('\n');
  return lines.map((line, i) => (i === 0 || line === '' ? line : indent + line)).join(newline);
}

/** The value without keys that hold nothing. */
export function withoutGaps(value: Plain): Plain {
  return JSON.parse(JSON.stringify(value)) as Plain;
}
