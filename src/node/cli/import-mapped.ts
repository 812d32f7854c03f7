import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { reportText } from '../../core/check/index.ts';
import { readMappedTranscript, readTranscriptMapping } from '../../core/interchange/index.ts';
import type { Recording } from '../../core/model/index.ts';
import { plural } from '../../core/read/index.ts';
import { fromSeconds, TICKS_PER_SECOND, toRecording } from '../../core/time/index.ts';
import type { TimedWord } from '../../core/words/index.ts';
import { decodeText } from '../files/index.ts';
import { type Context, EXIT, type ExitCode, type Flags } from './command.ts';
import { captionsBlocked, writeCaptions } from './write-captions.ts';

/** A mapping is a page at most, bytes. */
const MOST_BYTES = 100_000;

/** Takes in a JSON transcript of any shape, by a mapping that says where it has what. */
export async function importMapped(
  recording: Recording,
  file: string,
  text: string,
  flags: Flags,
  { content, cwd, out, say }: Pick<Context, 'content' | 'cwd' | 'out' | 'say'>,
): Promise<ExitCode> {
  const named = flags.text('mapping') ?? '';
  if (flags.has('as')) {
    say('--as names a format that is known, --mapping says how another one is read: name one of them');
    return EXIT.callIsWrong;
  }
  const bytes = await readFile(resolve(cwd, named)).catch(() => undefined);
  if (!bytes || bytes.length > MOST_BYTES) {
    say(bytes ? `${named} is too long for a mapping` : `${named} cannot be read`);
    return EXIT.callIsWrong;
  }
  const source = decodeText(bytes).text;
  const { mapping, diagnostics, lineOf } = readTranscriptMapping(named, source);
  if (diagnostics.length > 0) say(reportText(diagnostics, new Map([[named, source]]), () => named));
  if (!mapping) return EXIT.contentHasErrors;
  const read = readMappedTranscript(text, mapping, (key) => `${named}:${lineOf(key)}`);
  if (!read.ok) {
    say(`${read.problem}\n${read.help}`);
    return EXIT.contentHasErrors;
  }
  const blocked = captionsBlocked(recording);
  if (blocked !== undefined) {
    say(blocked);
    return EXIT.contentHasErrors;
  }
  const { words, late } =
    flags.text('clock') === 'programme'
      ? onRecording(read.value.words, recording)
      : { words: read.value.words, late: 0 };
  for (const note of read.value.notes) say(`not carried: ${note}`);
  if (late > 0) say(`not carried: ${plural(late, 'word')} past the end of the programme`);
  if (words.length === 0) {
    say('no word is left');
    return EXIT.contentHasErrors;
  }
  say(`${file}: ${plural(words.length, 'word')}`);
  return writeCaptions(recording, words, { content, say, out, dryRun: flags.has('dry-run') });
}

/** Words of the edited programme where they were said in the recording. */
function onRecording(words: readonly TimedWord[], { edit }: Recording): { words: TimedWord[]; late: number } {
  const length = edit.reduce((sum, { start, end }) => sum + (end - start), 0) / TICKS_PER_SECOND;
  const within = words.filter(({ start }) => start < length);
  const at = (seconds: number, side: 'after' | 'before') =>
    toRecording(edit, fromSeconds<'programme'>(Math.min(seconds, length)), side) / TICKS_PER_SECOND;
  return {
    words: within.map((word) => {
      const start = at(word.start, 'after');
      return { ...word, start, end: Math.max(start, at(word.end, 'before')) };
    }),
    late: words.length - within.length,
  };
}
