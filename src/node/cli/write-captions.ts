import { readFile } from 'node:fs/promises';
import { writeVtt } from '../../core/interchange/index.ts';
import type { Recording } from '../../core/model/index.ts';
import { plural, readCaptions } from '../../core/read/index.ts';
import { toSeconds } from '../../core/time/index.ts';
import { captionsOf, mergeWords, type TimedWord } from '../../core/words/index.ts';
import { setYaml } from '../../core/write/index.ts';
import { readReason } from '../files/disk-reason.ts';
import { errorCode } from '../files/error-code.ts';
import { decodeText, saveTexts, type TextChange } from '../files/index.ts';
import { fileInside } from '../files/inside.ts';
import { type Context, EXIT, type ExitCode, OutsideFailure } from './command.ts';

/** Says what has to be done before a machine may write captions of a recording. @returns nothing where they may be written */
export function captionsBlocked({ id, captions }: Recording): string | undefined {
  if (!captions || /\.vtt$/i.test(captions.file)) return undefined;
  return `${captions.file} is no WebVTT: liftside export ${id} --to vtt -o media/${id}.vtt --content … makes it one; name that under captions: first`;
}

/**
 * Puts captions of words that a machine wrote beside those of persons, and names their file in the recording. What it
 * goes beside is read at this moment: the words may have taken hours, and somebody may have worked on meanwhile.
 */
export async function writeCaptions(
  recording: Recording,
  words: readonly TimedWord[],
  { content, say, out, dryRun }: Pick<Context, 'content' | 'say' | 'out'> & { readonly dryRun: boolean },
): Promise<ExitCode> {
  const last = words.at(-1)?.end ?? 0;
  const length = recording.length === undefined ? last : Math.max(last, toSeconds(recording.length));
  const path = recording.captions?.file ?? `media/${recording.id}.vtt`;
  const was = await bytesOf(content, path);
  const present = was && readCaptions(path, decodeText(was).text);
  const unreadable = present?.diagnostics.find(({ severity }) => severity === 'error');
  if (unreadable) {
    say(`${path} cannot be read, so that nothing can be put beside what it says: ${unreadable.message}`);
    return EXIT.contentHasErrors;
  }
  const merged = mergeWords(present?.captions ?? [], captionsOf(words, length));
  const text = writeVtt(merged.captions, present?.blocks);
  say(
    [
      `${plural(merged.fresh, 'caption')}, marked as unread until a person has read them`,
      ...(merged.kept > 0 ? [`${plural(merged.kept, 'caption')} of persons left as they are`] : []),
      ...(merged.yielded > 0 ? [`${merged.yielded} left out, where those stand`] : []),
    ].join('; '),
  );
  if (dryRun) {
    out(text);
    return EXIT.fine;
  }
  const changes: TextChange[] = [{ file: path, text, was }];
  if (recording.captions === undefined) {
    const { file } = recording.origin.place;
    const written = await bytesOf(content, file);
    const named = setYaml(written ? decodeText(written).text : '', ['captions'], path);
    if (!named.ok) {
      say(`${file}: ${named.problem}; ${named.help}`);
      return EXIT.contentHasErrors;
    }
    changes.push({ file, text: named.value, was: written });
  }
  const saved = await saveTexts(content, changes);
  if (!saved.ok) throw new OutsideFailure(saved.problem, saved.help);
  for (const file of saved.files) say(`wrote ${file}`);
  return EXIT.fine;
}

async function bytesOf(content: string, file: string): Promise<Uint8Array | undefined> {
  return readFile(fileInside(content, file)).catch((error: unknown) => {
    if (errorCode(error) === 'ENOENT') return undefined;
    throw new OutsideFailure(`${file} cannot be read: ${readReason(error)}`, 'mend that and run it again');
  });
}
