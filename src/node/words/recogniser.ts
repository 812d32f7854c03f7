import { type ChildProcess, fork } from 'node:child_process';
import { writeFile } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { z } from 'zod';
import { VOICE_RATE } from '../../core/media/index.ts';
import { hotWordsLine, type Recognition, vocabularyOf } from '../../core/words/index.ts';
import { OutsideFailure } from '../failure.ts';
import type { FoundModel } from './find-model.ts';

const CHILD = fileURLToPath(new URL('./recogniser-child.mjs', import.meta.url));
/** Of what the library says while it ends, the last lines, characters. */
const LAST = 2000;
/** How much more a hot word weighs. (The library's usual value.) */
const HOT = 1.5;

const recognised = z.object({
  text: z.string(),
  tokens: z.array(z.string()),
  timestamps: z.array(z.number()),
});

/** A recogniser at work in a process of its own. */
export interface Recogniser {
  /**
   * @param samples at `VOICE_RATE`, −1 … 1
   * @param where the piece lies, in words, for messages
   * @throws OutsideFailure when the recogniser breaks down over it
   */
  recognise(samples: Float32Array, where: string): Promise<Recognition>;
  close(): void;
}

/**
 * Starts a recogniser and waits until its model is read.
 *
 * @param folder for what it has to read besides, lent to it until it is closed
 * @throws OutsideFailure when its library does not run here, or does not take the model
 */
export async function startRecogniser(
  model: FoundModel,
  hotWords: readonly string[],
  folder: string,
  signal: AbortSignal,
): Promise<Recogniser> {
  const child = fork(CHILD, { serialization: 'advanced', stdio: ['ignore', 'ignore', 'pipe', 'ipc'], execArgv: [] });
  const stop = () => child.kill();
  signal.addEventListener('abort', stop, { once: true });
  let said = '';
  child.stderr?.setEncoding('utf8').on('data', (text: string) => {
    said = (said + text).slice(-LAST);
  });
  const ask = (message: object, why: (words: string) => OutsideFailure) =>
    answer(child, message, signal, () => why(said));
  try {
    const line = model.hotWords ? hotWordsLine(hotWords, model.tokens) : '';
    await ask({ settings: await settingsOf(model, line, folder), hotWords: line }, (words) => notTaken(model, words));
  } catch (error) {
    child.kill();
    throw error;
  }
  return {
    recognise: async (samples, where) =>
      recognised.parse(await ask({ samples, sampleRate: VOICE_RATE }, (words) => brokeDown(where, words))),
    close: () => {
      signal.removeEventListener('abort', stop);
      child.kill();
    },
  };
}

/** Asks the child one thing. @throws what `why` says when it ends instead of answering; the signal's reason when stopped */
function answer(
  child: ChildProcess,
  message: object,
  signal: AbortSignal,
  why: () => OutsideFailure,
): Promise<unknown> {
  return new Promise((done, failed) => {
    const end = () => {
      child.off('message', heard).off('close', ended).off('error', ended);
    };
    const heard = (answered: unknown) => {
      end();
      done(answered);
    };
    const ended = () => {
      end();
      failed(signal.aborted ? signal.reason : why());
    };
    child.on('message', heard).on('close', ended).on('error', ended);
    if (child.exitCode !== null || child.signalCode !== null) ended();
    else child.send(message, (error) => error && ended());
  });
}

async function settingsOf(model: FoundModel, hotWords: string, folder: string): Promise<object> {
  const inFolder = (value: unknown): unknown => {
    if (typeof value === 'string') return model.files.includes(value) ? join(model.folder, value) : value;
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, inFolder(inner)]));
  };
  const modelConfig = {
    ...Object(inFolder(model.settings)),
    numThreads: availableParallelism(),
    provider: 'cpu',
    debug: 0,
  };
  const whole = { featConfig: { sampleRate: VOICE_RATE, featureDim: 80 }, modelConfig };
  const vocabulary = hotWords === '' ? undefined : await vocabularyFile(model, folder);
  if (vocabulary === undefined) return whole;
  return {
    ...whole,
    modelConfig: { ...modelConfig, modelingUnit: 'bpe', bpeVocab: vocabulary },
    decodingMethod: 'modified_beam_search',
    maxActivePaths: 4,
    hotwordsScore: HOT,
  };
}

/** The vocabulary that came with a model, else one made of its tokens. */
async function vocabularyFile(model: FoundModel, folder: string): Promise<string | undefined> {
  if (model.files.includes('bpe.vocab')) return join(model.folder, 'bpe.vocab');
  const text = vocabularyOf(model.tokens);
  if (text === undefined) return undefined;
  await writeFile(join(folder, 'bpe.vocab'), text);
  return join(folder, 'bpe.vocab');
}

function notTaken({ folder, kind }: FoundModel, words: string): OutsideFailure {
  if (/ERR_MODULE_NOT_FOUND|Cannot find module|Could not find sherpa-onnx/i.test(words))
    return new OutsideFailure(
      `the library that recognises speech has no program for this machine (${process.platform} ${process.arch})`,
      'npm install --include=optional brings it where there is one',
    );
  return new OutsideFailure(
    `the recogniser does not take the model in ${folder} (as ${kind}): ${lastLine(words)}`,
    'a file of it may be damaged, or of another version than the others: get the whole folder again, or take another model',
  );
}

function brokeDown(where: string, words: string): OutsideFailure {
  return new OutsideFailure(
    `the recogniser broke down over the sound at ${where}: ${lastLine(words)}`,
    'it may have run out of memory: close other programs, or take a smaller model; what was recognised before is kept',
  );
}

function lastLine(words: string): string {
  const lines = words.split('\n').map((line) => line.trim());
  return lines.findLast((line) => line !== '' && !/^(Node\.js v|at |\^)/.test(line)) ?? 'it said nothing';
}
