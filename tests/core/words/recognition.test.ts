import { describe, expect, test } from 'vitest';
import {
  cutAtQuiet,
  findModelKind,
  groupPieces,
  hotWordsLine,
  hotWordsOf,
  type ModelFile,
  quantitiesInFigures,
  recognisedWords,
  type TimedWord,
  talkPieces,
  vocabularyOf,
  withoutShouting,
} from '../../../src/core/words/index.ts';

const files = (text: string): ModelFile[] =>
  text.split(' ').map((word) => {
    const [name = '', type] = word.split('=');
    return { name, ...(type !== undefined && { type }) };
  });

describe('what kind of model a folder holds', () => {
  // File names as in the examples of the library's own package for Node; model_type as its scripts write it.
  test.each([
    [
      'transducer',
      'encoder-epoch-99-avg-1.int8.onnx=zipformer2 encoder-epoch-99-avg-1.onnx decoder-epoch-99-avg-1.onnx joiner-epoch-99-avg-1.onnx tokens.txt bpe.vocab',
      {
        transducer: {
          encoder: 'encoder-epoch-99-avg-1.int8.onnx',
          decoder: 'decoder-epoch-99-avg-1.onnx',
          joiner: 'joiner-epoch-99-avg-1.onnx',
        },
        tokens: 'tokens.txt',
      },
    ],
    [
      'transducer',
      'encoder.int8.onnx=EncDecRNNTBPEModel decoder.int8.onnx joiner.int8.onnx tokens.txt',
      {
        transducer: { encoder: 'encoder.int8.onnx', decoder: 'decoder.int8.onnx', joiner: 'joiner.int8.onnx' },
        modelType: 'nemo_transducer',
        tokens: 'tokens.txt',
      },
    ],
    [
      'whisper',
      'tiny-encoder.int8.onnx=whisper-tiny tiny-decoder.int8.onnx tiny-tokens.txt',
      {
        whisper: {
          encoder: 'tiny-encoder.int8.onnx',
          decoder: 'tiny-decoder.int8.onnx',
          language: 'de',
          task: 'transcribe',
        },
        tokens: 'tiny-tokens.txt',
      },
    ],
    [
      'canary',
      'encoder.int8.onnx=EncDecMultiTaskModel decoder.int8.onnx tokens.txt',
      {
        canary: { encoder: 'encoder.int8.onnx', decoder: 'decoder.int8.onnx', srcLang: 'de', tgtLang: 'de', usePnc: 1 },
        tokens: 'tokens.txt',
      },
    ],
    [
      'moonshine',
      'preprocess.onnx encode.int8.onnx uncached_decode.int8.onnx cached_decode.int8.onnx tokens.txt',
      {
        moonshine: {
          preprocessor: 'preprocess.onnx',
          encoder: 'encode.int8.onnx',
          uncachedDecoder: 'uncached_decode.int8.onnx',
          cachedDecoder: 'cached_decode.int8.onnx',
        },
        tokens: 'tokens.txt',
      },
    ],
    [
      'moonshine',
      'encoder_model.ort decoder_model_merged.ort tokens.txt',
      {
        moonshine: { encoder: 'encoder_model.ort', mergedDecoder: 'decoder_model_merged.ort' },
        tokens: 'tokens.txt',
      },
    ],
    [
      'paraformer',
      'model.int8.onnx=paraformer tokens.txt',
      { paraformer: { model: 'model.int8.onnx' }, tokens: 'tokens.txt' },
    ],
    ['nemoCtc', 'model.onnx=EncDecCTCModelBPE tokens.txt', { nemoCtc: { model: 'model.onnx' }, tokens: 'tokens.txt' }],
    [
      'senseVoice',
      'model.int8.onnx=sense_voice_ctc model.onnx tokens.txt',
      {
        senseVoice: { model: 'model.int8.onnx', language: 'de', useInverseTextNormalization: 1 },
        tokens: 'tokens.txt',
      },
    ],
  ])('%s', (kind, names, settings) => {
    const found = findModelKind(files(names), 'de');
    expect(found).toMatchObject({ ok: true, value: { kind, settings } });
    if (!found.ok) return;
    expect(found.value.settings).toEqual(settings);
    expect(found.value.files).toContain(settings.tokens);
    expect(found.value.files.includes('bpe.vocab')).toBe(names.includes('bpe.vocab'));
    expect(found.value.hotWords).toBe(kind === 'transducer');
  });

  test.each([
    ['model.onnx=paraformer', 'no tokens.txt'],
    ['tokens.txt readme.md', 'no network'],
    ['model.onnx=a_new_kind tokens.txt', 'model.onnx is of a kind that is not known (model_type: a_new_kind)'],
    ['model.onnx tokens.txt', 'model_type: none'],
    ['encoder.onnx decoder.onnx tokens.txt', 'encoder.onnx and decoder.onnx are of a kind that is not known'],
  ])('%s: it says %s', (names, problem) => {
    const found = findModelKind(files(names));
    expect(found).toMatchObject({ ok: false, problem: expect.stringContaining(problem) });
    expect(found.ok ? '' : found.help).toContain('joiner');
  });
});

describe('words of what was recognised', () => {
  const starts = (words: readonly TimedWord[]) => words.map(({ text, start }) => [text, Number(start.toFixed(2))]);

  test('each begins with its first token, in whichever way the model marks the beginning of words', () => {
    const at = { start: 100, end: 104 };
    const timestamps = [0.2, 0.5, 1.2, 1.4, 2];
    const written = (tokens: string[]) => starts(recognisedWords({ text: 'Crack the nut.', tokens, timestamps }, at));
    const wanted = [
      ['Crack', 100.2],
      ['the', 101.2],
      ['nut.', 101.4],
    ];
    expect(written(['▁Cr', 'ack', '▁the', '▁nut', '.'])).toEqual(wanted);
    expect(written([' Cr', 'ack', ' the', ' nut', '.'])).toEqual(wanted);
    expect(written(['cr@@', 'ack', 'the', 'nut', '.'])).toEqual(wanted);
    const apart = { text: 'the nut', tokens: ['▁', 'the', '▁', 'n', 'ut'], timestamps: [0.1, 0.2, 1, 1.1, 1.3] };
    expect(starts(recognisedWords(apart, at))).toEqual([
      ['the', 100.1],
      ['nut', 101],
    ]);
  });

  test('a word lasts a syllable past its last token that is spoken, never into the next word; a full stop ends a sentence', () => {
    const found = recognisedWords(
      { text: 'Stop. Go on', tokens: ['▁Stop', '.', '▁Go', '▁on'], timestamps: [0, 0.4, 2, 2.1] },
      { start: 10, end: 12.2 },
    );
    expect(found.map(({ end, ends }) => [Number(end.toFixed(2)), ends])).toEqual([
      [10.3, true],
      [12.1, false],
      [12.2, false],
    ]);
  });

  test('figures that were written for spoken words take the time after the word before; all stay in order', () => {
    const found = recognisedWords(
      { text: 'take 98 now', tokens: ['▁take', '▁ninety', '▁eight', '▁now'], timestamps: [0.5, 1, 1.5, 3] },
      { start: 0, end: 4 },
    );
    expect(starts(found)).toEqual([
      ['take', 0.5],
      ['98', 0.5],
      ['now', 3],
    ]);
  });

  test('without times of tokens words share the piece by their letters', () => {
    const found = recognisedWords({ text: 'aa bbbbb', tokens: [], timestamps: [] }, { start: 20, end: 29 });
    expect(starts(found)).toEqual([
      ['aa', 20],
      ['bbbbb', 23],
    ]);
    expect(found.at(-1)?.end).toBe(29);
    expect(recognisedWords({ text: ' ', tokens: [], timestamps: [] }, { start: 0, end: 1 })).toEqual([]);
  });

  test('a model that writes capitals only is set in small letters; one that writes some is left alone', () => {
    const word = (text: string): TimedWord => ({ text, start: 0, end: 1, ends: false });
    const texts = (...words: string[]) => withoutShouting(words.map(word)).map(({ text }) => text);
    expect(texts('CRACK', 'THE', 'NUT')).toEqual(['crack', 'the', 'nut']);
    expect(texts('The', 'ABS', 'fuse')).toEqual(['The', 'ABS', 'fuse']);
  });
});

describe('quantities in figures', () => {
  const spoken = (text: string) =>
    quantitiesInFigures(
      text.split(' ').map((word, i) => ({ text: word, start: i, end: i + 1, ends: /[.!?]$/.test(word) })),
    );
  const written = (text: string) => spoken(text).map((word) => word.text.replaceAll('\u00a0', '~'));

  // Symbols as the SI Brochure (BIPM, 9th edition, tables 4 and 8) prints them: N·m, mm, °C; a space before each.
  test.each([
    ['tighten it to nineteen newton metres.', 'tighten it to 19~N·m.'],
    ['ninety-eight newton metres is what it takes', '98~N·m is what it takes'],
    ['a gap of zero point seven millimetres', 'a gap of 0.7~mm'],
    ['it boils at two hundred and five degrees Celsius', 'it boils at 205~°C'],
  ])('%s', (text, wanted) => {
    expect(written(text).join(' ')).toBe(wanted);
  });

  test('it stands from where its first word begins to where its last one ends', () => {
    expect(spoken('now nineteen newton metres. Next')[1]).toEqual({
      text: '19\u00a0N·m.',
      start: 1,
      end: 4,
      ends: true,
    });
  });

  // What is no single value, or could be two, stays as it was spoken: a person has to hear it.
  test.each([
    'between eighteen and twenty-two newton metres',
    'no more than nineteen newton metres',
    'nineteen plus or minus two newton metres',
    'pour in a pint of it',
    'take the nineteen millimetre socket',
    'forty-seven teeth on the sprocket',
    'set it to 19 N·m now',
    'three of them in two minutes or so',
  ])('%s: stays', (text) => {
    expect(written(text).join(' ')).toBe(text);
  });
});

describe('pieces of talk', () => {
  test('short rests join, long ones part, a little is heard around each, nothing twice', () => {
    expect(
      talkPieces(
        [
          [1, 3],
          [3.3, 5],
          [5.6, 6],
          [6.4, 31],
        ],
        31,
      ),
    ).toEqual([
      [0.8, 5.2],
      [5.4, 6.2],
      [6.2, 31],
    ]);
  });

  test('talk that never ends is cut into parts that fit into memory', () => {
    const parts = talkPieces([[0, 600]], 600);
    expect(parts).toHaveLength(5);
    expect(parts[1]).toEqual([120, 240]);
    expect(parts.at(-1)?.[1]).toBe(600);
  });

  test('a minute of talk is kept together at most, one piece at least', () => {
    const groups = groupPieces([
      [0, 20],
      [30, 50],
      [60, 90],
      [100, 190],
      [200, 201],
    ]);
    expect(groups.map((group) => group.length)).toEqual([2, 1, 1, 1]);
  });

  test('what is too long is cut where it is quietest', () => {
    const rate = 1000;
    const samples = new Float32Array(50 * rate).fill(0.5);
    samples.fill(0.01, 20 * rate, 20.4 * rate);
    samples.fill(0.01, 5 * rate, 6 * rate);
    const cuts = cutAtQuiet(samples, rate);
    expect(cuts[0]?.[1]).toBeGreaterThanOrEqual(20 * rate);
    expect(cuts[0]?.[1]).toBeLessThanOrEqual(20.4 * rate);
    for (const [i, [from, until]] of cuts.entries()) {
      expect(until - from).toBeLessThanOrEqual(24 * rate);
      expect(from).toBe(cuts[i - 1]?.[1] ?? 0);
    }
    expect(cuts.at(-1)?.[1]).toBe(samples.length);
    expect(cutAtQuiet(samples.subarray(0, 100), rate)).toEqual([[0, 100]]);
  });
});

describe('hot words', () => {
  test('names of things, without what stands behind a comma or in brackets, each once', () => {
    const read = {
      origin: { place: { file: '', start: { line: 1, column: 1, offset: 0 }, end: { line: 1, column: 1, offset: 0 } } },
    };
    const shop = {
      machines: [{ specs: [{ title: 'Rear axle nut, with washer' }, { title: 'Chain slack (on the side stand)' }] }],
      kit: { ...read, tools: { a: { title: 'Breaker bar' } }, supplies: { b: { title: 'DOT 4' } } },
      words: {
        ...read,
        words: [
          { say: 'chain guard', also: ['chain card'] },
          { say: 'breaker bar', also: ['long bar'] },
        ],
      },
    };
    expect(hotWordsOf(shop as never)).toEqual(['chain guard', 'breaker bar', 'dot', 'rear axle nut', 'chain slack']);
  });

  test('in the case that the model writes, and in letters that it knows', () => {
    const capitals = '<blk> 0\n▁NUT 1\nA 2\nX 3\nLE 4\n';
    expect(hotWordsLine(['axle nut', 'bolt'], capitals)).toBe('AXLE NUT');
    expect(hotWordsLine(['axle', 'nut'], '<blk> 0\n▁a 1\nxle 2\nnut 3\n')).toBe('axle/nut');
    expect(vocabularyOf(capitals)).toBe('<blk>\t-1.0\n▁NUT\t-1.0\nA\t-1.0\nX\t-1.0\nLE\t-1.0\n');
    expect(vocabularyOf('<blk> 0\na 1\n')).toBeUndefined();
  });
});
