import { fail, ok, type Parsed } from '../time/index.ts';

/** A file in the folder of a model. */
export interface ModelFile {
  readonly name: string;
  /** What a network says it is: `model_type` among its own metadata. */
  readonly type?: string;
}

/** Settings of one kind of model, by the names of the library that runs it. */
export type ModelSettings = Readonly<Record<string, string | number | Readonly<Record<string, string | number>>>>;

/** A model that recognises speech, as its files tell. */
export interface SpeechModel {
  /** By the name that the library has for it. */
  readonly kind: string;
  /** Its settings: the files in `files` by their names in the folder. */
  readonly settings: ModelSettings;
  /** Every file that decides what it recognises. */
  readonly files: readonly string[];
  /** Whether words can be given that it should rather hear. */
  readonly hotWords: boolean;
  /** Whether it can be told the language; all others know one, or find out. */
  readonly takesLanguage: boolean;
}

/** What a folder has to hold, in words. */
export const MODEL_FILES_WANTED =
  'a list tokens.txt with one of these beside it, as .onnx files that sherpa-onnx reads: an encoder, a decoder and a joiner (transducer); an encoder and a decoder; a preprocessor, an encoder and two decoders; or a single network (CTC, paraformer and the like) that says its model_type in its metadata';

type Chosen = Pick<SpeechModel, 'kind' | 'settings' | 'hotWords' | 'takesLanguage'>;

/** Networks in one file, by their `model_type`. Source: the library's own readers and the scripts that export for them. */
const SINGLE: readonly (readonly [type: RegExp, kind: string])[] = [
  [/^zipformer2_ctc$/, 'zipformerCtc'],
  [/^EncDec(CTCModel|CTCModelBPE|HybridRNNTCTCBPEModel)$/, 'nemoCtc'],
  [/^wenet_ctc$/, 'wenetCtc'],
  [/^tdnn/, 'tdnn'],
  [/^paraformer$/, 'paraformer'],
  [/^sense_voice_ctc$/, 'senseVoice'],
  [/^dolphin$/, 'dolphin'],
  [/^omnilingual-asr$/, 'omnilingual'],
  [/^medasr_ctc$/, 'medasr'],
  [/^fire-red-asr-2-ctc$/, 'fireRedAsrCtc'],
];

/** Networks of encoder and decoder, by the `model_type` of the encoder. */
const PAIRS: readonly (readonly [
  type: RegExp,
  choose: (encoder: string, decoder: string, language: string) => Chosen,
])[] = [
  [
    /^whisper/,
    (encoder, decoder, language) => ({
      kind: 'whisper',
      settings: { whisper: { encoder, decoder, language, task: 'transcribe' } },
      hotWords: false,
      takesLanguage: true,
    }),
  ],
  [
    /^EncDecMultiTaskModel$/,
    (encoder, decoder, language) => ({
      kind: 'canary',
      settings: { canary: { encoder, decoder, srcLang: language || 'en', tgtLang: language || 'en', usePnc: 1 } },
      hotWords: false,
      takesLanguage: true,
    }),
  ],
  [
    /^fire-red-asr/,
    (encoder, decoder) => ({
      kind: 'fireRedAsr',
      settings: { fireRedAsr: { encoder, decoder } },
      hotWords: false,
      takesLanguage: false,
    }),
  ],
  [
    /^cohere-transcribe/,
    (encoder, decoder, language) => ({
      kind: 'cohereTranscribe',
      settings: { cohereTranscribe: { encoder, decoder, language: language || 'en', usePunct: 1, useItn: 1 } },
      hotWords: false,
      takesLanguage: true,
    }),
  ],
];

/**
 * What kind of model the files of a folder are. Where a network is there whole and with rounded weights (`int8`), the
 * rounded one is taken: it is a quarter of the size and hardly hears worse.
 *
 * @param language of the speech, such as `en`; empty where it is for the model to find out
 * @returns the model, or what is missing
 */
export function findModelKind(files: readonly ModelFile[], language = ''): Parsed<SpeechModel> {
  const tokens = files.find(({ name }) => /(^|[-_.])tokens\.txt$/i.test(name))?.name;
  if (tokens === undefined)
    return fail('there is no tokens.txt, the list of what the model can write', `it needs ${MODEL_FILES_WANTED}`);
  const networks = files.filter(({ name }) => /\.(onnx|ort)$/i.test(name));
  const one = (pattern: RegExp) => {
    const found = networks.filter(({ name }) => pattern.test(name));
    return found.find(({ name }) => /int8/i.test(name)) ?? found[0];
  };
  const chosen = choose(networks, one, language);
  if (!chosen.ok) return chosen;
  const named = namesIn(chosen.value.settings);
  const vocabulary = chosen.value.hotWords ? files.filter(({ name }) => name === 'bpe.vocab') : [];
  return ok({
    ...chosen.value,
    settings: { ...chosen.value.settings, tokens },
    files: [
      ...named.filter((name) => networks.some((file) => file.name === name)),
      tokens,
      ...vocabulary.map((f) => f.name),
    ],
  });
}

function choose(
  networks: readonly ModelFile[],
  one: (pattern: RegExp) => ModelFile | undefined,
  language: string,
): Parsed<Chosen> {
  const [encoder, decoder, joiner] = [one(/encoder/i), one(/decoder(?!.*merged)/i), one(/joiner/i)];
  if (encoder && decoder && joiner) {
    const [from, by, with_] = [encoder.name, decoder.name, joiner.name];
    const settings = { transducer: { encoder: from, decoder: by, joiner: with_ } };
    const modelType = encoder.type?.startsWith('EncDec') ? { modelType: 'nemo_transducer' } : {};
    return ok({ kind: 'transducer', settings: { ...settings, ...modelType }, hotWords: true, takesLanguage: false });
  }
  const pieces = [one(/preprocess/i), one(/(^|[-_])encode/i), one(/uncached_decode/i), one(/(^|[-_])cached_decode/i)];
  const [preprocessor, encode, uncachedDecoder, cachedDecoder] = pieces.map((file) => file?.name);
  const fixed = { kind: 'moonshine', hotWords: false, takesLanguage: false };
  if (preprocessor && encode && uncachedDecoder && cachedDecoder)
    return ok({ ...fixed, settings: { moonshine: { preprocessor, encoder: encode, uncachedDecoder, cachedDecoder } } });
  const merged = one(/decoder.*merged/i);
  if (encoder && merged)
    return ok({ ...fixed, settings: { moonshine: { encoder: encoder.name, mergedDecoder: merged.name } } });
  if (encoder && decoder) {
    const pair = PAIRS.find(([type]) => type.test(encoder.type ?? ''));
    if (pair) return ok(pair[1](encoder.name, decoder.name, language));
    return fail(
      `${encoder.name} and ${decoder.name} are of a kind that is not known (model_type: ${encoder.type ?? 'none'})`,
      `a folder needs ${MODEL_FILES_WANTED}`,
    );
  }
  const network = one(/./);
  if (!network) return fail('there is no network, a file that ends in .onnx', `it needs ${MODEL_FILES_WANTED}`);
  const single = SINGLE.find(([type]) => type.test(network.type ?? ''));
  if (!single)
    return fail(
      networks.length > 1
        ? `${networks.map(({ name }) => name).join(', ')} make up no kind of model that is known`
        : `${network.name} is of a kind that is not known (model_type: ${network.type ?? 'none'})`,
      `a folder needs ${MODEL_FILES_WANTED}`,
    );
  const [, kind] = single;
  const spoken = kind === 'senseVoice' ? { language: language || 'auto', useInverseTextNormalization: 1 } : {};
  return ok({
    kind,
    settings: { [kind]: { model: network.name, ...spoken } },
    hotWords: false,
    takesLanguage: kind === 'senseVoice',
  });
}

function namesIn(settings: ModelSettings): string[] {
  return Object.values(settings)
    .flatMap((value) => (typeof value === 'object' ? Object.values(value) : [value]))
    .filter((value) => typeof value === 'string');
}
