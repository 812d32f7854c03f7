import { afterAll, beforeEach, describe, expect, test, vi } from 'vitest';
import { Scope } from '../../../src/browser/page/scope.ts';
import { hearsHere, Listening, mayHear } from '../../../src/browser/player/listen.ts';
import { commandWords, type SpokenCommand, spokenCommand } from '../../../src/browser/player/spoken-words.ts';

describe('the words', () => {
  test.each([
    ['Next.', 'en-GB', 'next'],
    ['  next   step ', 'en', 'next'],
    ['Go back!', 'en', 'previous'],
    ['Siguiente', 'es-MX', 'next'],
    ['¡Atrás!', 'es', 'previous'],
    ['continua', 'es', 'play'],
  ] as const)('"%s" in %s is %s', (utterance, language, command) => {
    expect(spokenCommand(utterance, language)).toBe(command);
  });

  test('only a whole utterance is a command, and only in its language', () => {
    expect(spokenCommand('next we loosen the axle nut', 'en')).toBeUndefined();
    expect(spokenCommand('do not stop', 'en')).toBeUndefined();
    expect(spokenCommand('next', 'es')).toBeUndefined();
    expect(spokenCommand('next', 'fi')).toBeUndefined();
    expect(spokenCommand('…', 'en')).toBeUndefined();
    expect(commandWords('fi')).toEqual([]);
  });

  test.each(['en', 'es'])('no way of saying is two commands in %s', (language) => {
    const words = commandWords(language);
    expect(words).toHaveLength(6);
    expect(new Set(words.map((word) => spokenCommand(word, language))).size).toBe(6);
  });
});

/** Stands for the browser's own recogniser, with the parts of the Web Speech API that are used. */
class Recogniser extends EventTarget {
  static made: Recogniser[] = [];
  static answer = 'available';
  static readonly available = vi.fn(async () => Recogniser.answer);
  lang = '';
  continuous = false;
  processLocally = false;
  readonly start = vi.fn();
  readonly abort = vi.fn();

  constructor() {
    super();
    Recogniser.made.push(this);
  }

  say(transcript: string, isFinal = true): void {
    const results = [Object.assign([{ transcript }], { isFinal })];
    this.dispatchEvent(Object.assign(new Event('result'), { resultIndex: 0, results }));
  }
}
const page = { SpeechRecognition: Recogniser as unknown, speechSynthesis: { speaking: false } };
const storage = new Map<string, string>();
const localStorage = {
  getItem: (key: string) => storage.get(key) ?? null,
  setItem: (key: string, value: string) => storage.set(key, value),
  removeItem: (key: string) => storage.delete(key),
};
const { window: had, localStorage: stored } = globalThis as { window?: unknown; localStorage?: unknown };
beforeEach(() => {
  vi.useFakeTimers({ toFake: ['performance'] });
  Object.assign(globalThis, { window: page, localStorage });
  storage.clear();
  page.SpeechRecognition = Recogniser;
  page.speechSynthesis.speaking = false;
  Recogniser.made = [];
  Recogniser.answer = 'available';
  Recogniser.available.mockClear();
});
afterAll(() => {
  vi.useRealTimers();
  Object.assign(globalThis, { window: had, localStorage: stored });
});

describe('whether words are understood here', () => {
  test('asks for the device alone', async () => {
    expect(await hearsHere('en-GB')).toBe(true);
    expect(Recogniser.available).toHaveBeenCalledWith({ langs: ['en-GB'], processLocally: true });
  });

  test.each(['downloadable', 'downloading', 'unavailable'])('%s is no', async (answer) => {
    Recogniser.answer = answer;
    expect(await hearsHere('en')).toBe(false);
  });

  test('a browser that does not say where, one without, and a language without words are not asked', async () => {
    expect(mayHear('en-GB')).toBe(true);
    expect(mayHear('fi')).toBe(false);
    for (const recogniser of [class {}, undefined]) {
      page.SpeechRecognition = recogniser;
      expect(mayHear('en')).toBe(false);
      expect(await hearsHere('en')).toBe(false);
    }
    page.SpeechRecognition = Recogniser;
    Recogniser.available.mockRejectedValueOnce(new Error('blocked by policy'));
    expect(await hearsHere('en')).toBe(false);
    expect(mayHear('en')).toBe(true);
  });

  test('one that ended the page over the question is not asked again', async () => {
    Recogniser.available.mockReturnValueOnce(new Promise(() => {}));
    void hearsHere('en');
    expect(mayHear('en')).toBe(false);
  });
});

describe('listening', () => {
  function listen() {
    const obeyed: SpokenCommand[] = [];
    const ended: string[] = [];
    const scope = new Scope();
    const listening = new Listening(
      'en-GB',
      scope,
      (command) => obeyed.push(command),
      (why) => ended.push(why),
    );
    listening.start();
    const recogniser = Recogniser.made[0] as Recogniser;
    return { obeyed, ended, scope, listening, recogniser };
  }

  test('is on the device, in the language of the page, and obeys final words only', () => {
    const { obeyed, recogniser } = listen();
    expect(recogniser).toMatchObject({ lang: 'en-GB', processLocally: true, continuous: true });
    recogniser.say('next', false);
    expect(obeyed).toEqual([]);
    recogniser.say('next');
    expect(obeyed).toEqual(['next']);
  });

  test("the page's own voice is not obeyed", () => {
    const { obeyed, recogniser } = listen();
    page.speechSynthesis.speaking = true;
    recogniser.say('stop');
    expect(obeyed).toEqual([]);
  });

  test('begins again after a silence, and ends with the page', () => {
    const { recogniser, scope, listening } = listen();
    vi.advanceTimersByTime(9000);
    recogniser.dispatchEvent(new Event('end'));
    expect(recogniser.start).toHaveBeenCalledTimes(2);
    scope.end();
    expect(listening.on).toBe(false);
    expect(recogniser.abort).toHaveBeenCalledOnce();
    recogniser.dispatchEvent(new Event('end'));
    expect(recogniser.start).toHaveBeenCalledTimes(2);
  });

  test('a refused microphone is told once, a silence is not', () => {
    const { ended, recogniser, listening } = listen();
    recogniser.dispatchEvent(Object.assign(new Event('error'), { error: 'no-speech' }));
    expect([listening.on, ended]).toEqual([true, []]);
    recogniser.dispatchEvent(Object.assign(new Event('error'), { error: 'not-allowed' }));
    recogniser.dispatchEvent(Object.assign(new Event('error'), { error: 'not-allowed' }));
    expect(listening.on).toBe(false);
    expect(ended).toEqual([expect.stringContaining('microphone')]);
  });

  test('one that ends at once eight times in a row is given up; seven times is not', () => {
    const { ended, recogniser, listening } = listen();
    for (let i = 0; i < 7; i++) recogniser.dispatchEvent(new Event('end'));
    vi.advanceTimersByTime(1000);
    recogniser.dispatchEvent(new Event('end'));
    for (let i = 0; i < 7; i++) recogniser.dispatchEvent(new Event('end'));
    expect([listening.on, ended]).toEqual([true, []]);
    vi.advanceTimersByTime(999);
    recogniser.dispatchEvent(new Event('end'));
    expect([listening.on, ended]).toEqual([false, ['This browser stopped listening.']]);
  });
});
