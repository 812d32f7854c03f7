import { readFile } from 'node:fs/promises';
import { basename, resolve } from 'node:path';
import type { Recording } from '../../core/model/index.ts';
import { plural } from '../../core/read/index.ts';
import {
  hotWordsOf,
  quantitiesInFigures,
  readScript,
  type Sentence,
  type TimedScript,
} from '../../core/words/index.ts';
import { decodeText, type LoadedShop } from '../files/index.ts';
import { analyseRecording } from '../media/analyse.ts';
import { type Analysis, findAnalysis } from '../media/kept-analysis.ts';
import type { Workplace } from '../media/pool.ts';
import { onPath } from '../programs/index.ts';
import { findModel, NO_MODEL, namedModel } from '../words/find-model.ts';
import { layWords } from '../words/lay-words.ts';
import { recogniseRecording } from '../words/recognise.ts';
import { type Context, command, EXIT, type ExitCode, type Flags, OutsideFailure } from './command.ts';
import { withFootage } from './footage-place.ts';
import { findRecording } from './render.ts';
import { captionsBlocked, writeCaptions } from './write-captions.ts';

/** Longest text that is laid, bytes: a day of talk takes half of it. */
const MOST_BYTES = 1_000_000;
/** Sentences that could not be placed, told each. */
const TOLD = 12;

export default command({
  name: 'transcribe',
  summary: 'captions with the time of each word: speech recognised on this machine, or a text laid on the sound',
  args: ['<recording>'],
  options: [
    { name: 'model', value: 'DIR', help: 'folder of the model that recognises speech; else LIFTSIDE_MODEL, shop.yaml' },
    { name: 'words', value: 'FILE', help: 'a text to lay on the sound instead: a script, minutes, somebody’s typing' },
    {
      name: 'language',
      value: 'CODE',
      help: 'of the speech: en, de, …; the shop’s when left out. With --words as espeak-ng names it, en when left out',
    },
    { name: 'dry-run', help: 'print the captions, write nothing' },
  ],

  async run([id = ''], flags, context) {
    const loaded = await context.load();
    const recording = findRecording(loaded.shop, id, context);
    if (typeof recording === 'number') return recording;
    if (flags.has('words') && flags.has('model')) {
      context.say('--model recognises speech, --words lays a text on it: name one of them');
      return EXIT.callIsWrong;
    }
    return flags.has('words')
      ? layText(recording, loaded, flags, context)
      : recognise(recording, loaded, flags, context);
  },
});

async function recognise(
  recording: Recording,
  { shop }: LoadedShop,
  flags: Flags,
  context: Context,
): Promise<ExitCode> {
  const { say, out, content, cwd, env } = context;
  const named = namedModel({ option: flags.text('model'), cwd, env, info: shop.info, content });
  if (!named) {
    say(`${NO_MODEL.problem}: ${NO_MODEL.help}`);
    return EXIT.callIsWrong;
  }
  const asked = flags.text('language');
  const language = (asked ?? shop.locale.tag).toLowerCase().split(/[-_]/)[0] ?? '';
  const model = await findModel(named, language);
  if (!model.ok) throw new OutsideFailure(model.problem, model.help);
  if (asked !== undefined && !model.value.takesLanguage)
    say(`note: this kind of model (${model.value.kind}) cannot be told a language: it knows its own`);
  const blocked = captionsBlocked(recording);
  if (blocked !== undefined) {
    say(blocked);
    return EXIT.contentHasErrors;
  }
  const pieces = await withFootage(recording, shop, context, async (place) => {
    const analysis = await analysed(recording, place, context);
    const params = { model: model.value, language, hotWords: hotWordsOf(shop) };
    return recogniseRecording(content, recording, analysis, params, place);
  });
  const words = (language === 'en' ? pieces.map(quantitiesInFigures) : pieces).flat();
  if (words.length === 0) {
    say('no word was recognised: does somebody speak in this recording, and in a language that the model knows?');
    return EXIT.contentHasErrors;
  }
  say(`${plural(pieces.flat().length, 'word')} recognised`);
  return writeCaptions(recording, words, { content, say, out, dryRun: flags.has('dry-run') });
}

async function layText(recording: Recording, { shop }: LoadedShop, flags: Flags, context: Context): Promise<ExitCode> {
  const { say, out, content, cwd, env } = context;
  const named = flags.text('words') ?? '';
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
  const blocked = captionsBlocked(recording);
  if (blocked !== undefined) {
    say(blocked);
    return EXIT.contentHasErrors;
  }
  const program = await onPath(['espeak-ng'], env);
  if (program === undefined)
    throw new OutsideFailure(
      'espeak-ng is not installed; it speaks the text, so that it can be compared with the sound',
      'install it (Debian and Ubuntu: apt-get install espeak-ng; macOS: brew install espeak-ng)',
    );
  const voice = { program, language: flags.text('language') ?? 'en' };
  const timed = await withFootage(recording, shop, context, async (place) => {
    const analysis = await analysed(recording, place, context);
    return layWords(content, recording, sentences, analysis, voice, place);
  });
  tellMissing(timed, sentences, named, say);
  if (timed.words.length === 0) {
    say('nothing could be placed: is it the text of this recording, and in this language?');
    return EXIT.contentHasErrors;
  }
  return writeCaptions(recording, timed.words, { content, say, out, dryRun: flags.has('dry-run') });
}

/** Where somebody speaks: as it is known, else looked for. */
async function analysed(recording: Recording, place: Workplace, { content, say }: Context): Promise<Analysis> {
  const analysis = (await findAnalysis(content, recording)) ?? (await analyseRecording(content, recording, place));
  if (analysis.speechBy === 'loudness')
    say('note: speech was told by loudness alone, so that words may be heard in tools; liftside doctor says more');
  return analysis;
}

function tellMissing({ missing }: TimedScript, all: readonly Sentence[], file: string, say: Context['say']): void {
  say(`${all.length - missing.length} of ${plural(all.length, 'sentence')} of ${basename(file)} placed`);
  for (const { words, line } of missing.slice(0, TOLD))
    say(`not found in the sound: ${file}:${line} "${words.slice(0, 8).join(' ')}${words.length > 8 ? ' …' : ''}"`);
  if (missing.length > TOLD) say(`and ${missing.length - TOLD} more`);
}
