import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { findQuantitiesByLine, type HeardInLine, unsearchedByLine } from '../../core/heard/index.ts';
import { command, EXIT } from './command.ts';

export default command({
  name: 'quantities',
  summary: 'the quantities heard in a text or caption file; - reads standard input',
  args: ['<file>'],
  options: [{ name: 'json', help: 'one JSON document' }],

  async run([file = '-'], flags, { cwd, input, out, say }) {
    let text: string;
    try {
      text = file === '-' ? await input() : await readFile(resolve(cwd, file), 'utf8');
    } catch {
      say(`${file} cannot be read; name a text or caption file, or - for standard input`);
      return EXIT.callIsWrong;
    }
    const heard = findQuantitiesByLine(text);
    const skipped = unsearchedByLine(text);
    for (const { line, start, why } of skipped) say(`${file}:${line}:${start + 1} not searched from here: ${why}`);
    out(
      flags.has('json')
        ? JSON.stringify({ found: heard.map(asJson), ...(skipped.length > 0 ? { skipped } : {}) })
        : asTable(heard),
    );
    return EXIT.fine;
  },
});

function asJson({ line, text, start, end, kind, min, max, unit }: HeardInLine) {
  return { line, text, start, end, kind, min: min ?? null, max: max ?? null, unit };
}

function asTable(heard: readonly HeardInLine[]): string {
  if (heard.length === 0) return 'no quantities heard';
  return heard
    .map(({ line, start, text, kind, min, max, unit }) => {
      const span = min === max ? `${min}` : `${min ?? '…'} to ${max ?? '…'}`;
      return `${`${line}:${start + 1}`.padEnd(8)}${kind.padEnd(24)}${`${span} ${unit}`.padEnd(24)}${text}`;
    })
    .join('\n');
}
