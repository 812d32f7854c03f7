import { readFile } from 'node:fs/promises';
import { basename, resolve } from 'node:path';
import { writeVtt } from '../../core/interchange/index.ts';
import type { Recording } from '../../core/model/index.ts';
import { plural } from '../../core/read/index.ts';
import { toSeconds } from '../../core/time/index.ts';
import { captionsOf, mergeWords, readScript, type Sentence, type TimedScript } from '../../core/words/index.ts';
import { setYaml } from '../../core/write/index.ts';
import { decodeText, saveTexts, type TextChange } from '../files/index.ts';
import { analyseRecording } from '../media/analyse.ts';
import { findAnalysis } from '../media/kept-analysis.ts';
import { withWorkplace } from '../media/workplace.ts';
import { onPath } from '../programs/index.ts';
import { layWords } from '../words/lay-words.ts';
import { type Context, command, EXIT, OutsideFailure } from './command.ts';
import { liveDisplay } from './live.ts';
import { findRecording } from './render.ts';

/** Longest text that is laid, bytes: a day of talk takes half of it. */
const MOST_BYTES = 1_000_000;
/** Sentences that could not be placed, told each. */
const TOLD = 12;

export default command({
  name: 'transcribe',
  summary: 'captions from a text without times, laid on the sound of a recording word by word',
  args: ['<recording>'],
  options: [
    { name: 'words', value: 'FILE', help: 'the text: a script, minutes, somebody’s typing' },
    { name: 'language', value: 'CODE', help: 'of the text, as espeak-ng names it: en, en-us, de, …; en when left out' },
    { name: 'dry-run', help: 'say what could be placed, write nothing' },
  ],

  async run([id = ''], flags, context) {
    const { load, say, out, content, cwd, env } = context;
    const { shop, texts } = await load();
    const recording = findRecording(shop, id, context);
    if (typeof recording === 'number') return recording;
    const named = flags.text('words');
    if (named === undefined) {
      say('--words FILE names the text that is to be laid on the sound');
      return EXIT.callIsWrong;
    }
    const bytes = await readFile(resolve(cwd, named)).catch(() => undefined);
    if (!bytes || bytes.length > MOST_BYTES) {
      say(bytes ? `${named} is too long for what was said in a day` : `${named} cannot be read`);
      return EXIT.callIsWrong;
    }
    const sentences = readScript(decodeText(bytes).text);
    if (sentences.length === 0) {
      say(`${named} has no words`);
      return EXIT.callIsWrong;
    }
    const captions = recording.captions;
    if (captions && !/\.vtt$/i.test(captions.file)) {
      say(
        `${captions.file} is no WebVTT: liftside export ${id} --to vtt -o media/${id}.vtt --content … makes it one; name that under captions: first`,
      );
      return EXIT.contentHasErrors;
    }
    const program = await onPath(['espeak-ng'], env);
    if (program === undefined)
      throw new OutsideFailure(
        'espeak-ng is not installed; it speaks the text, so that it can be compared with the sound',
        'install it (Debian and Ubuntu: apt-get install espeak-ng; macOS: brew install espeak-ng)',
      );
    const voice = { program, language: flags.text('language') ?? 'en' };
    const timed = await withWorkplace(content, { ...context, display: liveDisplay(context) }, async (place) => {
      const analysis = (await findAnalysis(content, recording)) ?? (await analyseRecording(content, recording, place));
      if (analysis.speechBy === 'loudness')
        say('note: speech was told by loudness alone, so that words may be laid on tools; liftside doctor says more');
      return layWords(content, recording, sentences, analysis, voice, place);
    });
    tellMissing(timed, sentences, named, say);
    if (timed.words.length === 0) {
      say('nothing could be placed: is it the text of this recording, and in this language?');
      return EXIT.contentHasErrors;
    }
    return write(recording, timed, { texts, content, say, out, dryRun: flags.has('dry-run') });
  },
});

function tellMissing({ missing }: TimedScript, all: readonly Sentence[], file: string, say: Context['say']): void {
  say(`${all.length - missing.length} of ${plural(all.length, 'sentence')} of ${basename(file)} placed`);
  for (const { words, line } of missing.slice(0, TOLD))
    say(`not found in the sound: ${file}:${line} "${words.slice(0, 8).join(' ')}${words.length > 8 ? ' …' : ''}"`);
  if (missing.length > TOLD) say(`and ${missing.length - TOLD} more`);
}

/** Puts the captions beside those of persons, and names their file in the recording. */
async function write(
  recording: Recording,
  { words }: TimedScript,
  to: {
    readonly texts: ReadonlyMap<string, string>;
    readonly content: string;
    readonly dryRun: boolean;
  } & Pick<Context, 'say' | 'out'>,
) {
  const { texts, content, say } = to;
  const last = words.at(-1)?.end ?? 0;
  const length = recording.length === undefined ? last : Math.max(last, toSeconds(recording.length));
  const merged = mergeWords(recording.captions?.cues ?? [], captionsOf(words, length));
  const path = recording.captions?.file ?? `media/${recording.id}.vtt`;
  const text = writeVtt(merged.captions, recording.captions?.blocks);
  say(
    [
      `${plural(merged.fresh, 'caption')}, marked as unread until a person has read them`,
      ...(merged.kept > 0 ? [`${plural(merged.kept, 'caption')} of persons left as they are`] : []),
      ...(merged.yielded > 0 ? [`${merged.yielded} left out, where those stand`] : []),
    ].join('; '),
  );
  if (to.dryRun) {
    to.out(text);
    return EXIT.fine;
  }
  const changes: TextChange[] = [{ file: path, text, was: texts.get(path) }];
  if (recording.captions === undefined) {
    const { file } = recording.origin.place;
    const named = setYaml(texts.get(file) ?? '', ['captions'], path);
    if (!named.ok) {
      say(`${file}: ${named.problem}; ${named.help}`);
      return EXIT.contentHasErrors;
    }
    changes.push({ file, text: named.value, was: texts.get(file) });
  }
  const saved = await saveTexts(content, changes);
  if (!saved.ok) throw new OutsideFailure(saved.problem, saved.help);
  for (const file of saved.files) say(`wrote ${file}`);
  return EXIT.fine;
}
