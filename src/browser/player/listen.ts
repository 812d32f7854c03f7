import type { Scope } from '../page/scope.ts';
import { commandWords, type SpokenCommand, spokenCommand } from './spoken-words.ts';

// The parts of the Web Speech API (W3C Community Group draft) that are used; browsers that recognise on the device
// have `available` and `processLocally`, the library of types has neither.
interface Recogniser extends EventTarget {
  lang: string;
  continuous: boolean;
  processLocally: boolean;
  start(): void;
  abort(): void;
}
interface Recognisers {
  new (): Recogniser;
  available?(asked: { langs: string[]; processLocally: boolean }): Promise<string>;
}
interface RecognitionEvent extends Event {
  readonly resultIndex: number;
  readonly results: SpeechRecognitionResultList;
}

/** A recogniser that ends so often without a word does not work. */
const SILENT_ENDS = 8;
/** Ended sooner than this, it did not listen at all. ms */
const AT_ONCE = 1000;

function recognisers(): Recognisers | undefined {
  const browser = window as unknown as { SpeechRecognition?: Recognisers; webkitSpeechRecognition?: Recognisers };
  return browser.SpeechRecognition ?? browser.webkitSpeechRecognition;
}

const ASKED = 'liftside.askedToListen';

/**
 * Whether it is worth asking this browser for words understood on the device. Some builds that have the question in
 * their pages and nothing behind it end the whole page when it is put (seen in Chromium 156 without a window): who
 * was left without an answer once is not asked again.
 */
export function mayHear(language: string): boolean {
  if (commandWords(language).length === 0 || recognisers()?.available === undefined) return false;
  try {
    return localStorage.getItem(ASKED) === null;
  } catch {
    // Storage is closed off: a question could not be remembered.
    return false;
  }
}

/**
 * Whether this browser understands the language on the device itself, now and without fetching anything. A browser
 * that would send the sound of a workshop elsewhere, or does not say, counts as one that cannot. To be asked when
 * somebody wants it, where `mayHear`.
 */
export async function hearsHere(language: string): Promise<boolean> {
  localStorage.setItem(ASKED, language);
  const asked = recognisers()?.available?.({ langs: [language], processLocally: true });
  const answer = await asked?.catch(() => 'unavailable');
  localStorage.removeItem(ASKED);
  return answer === 'available';
}

/** Why listening ended by itself, for people. */
const ENDED: Readonly<Record<string, string>> = {
  'not-allowed': 'The browser does not let this page use the microphone. Allow it in the settings of the page.',
  'service-not-allowed': 'The browser does not let this page listen. Allow it in the settings of the page.',
  'audio-capture': 'No microphone was found.',
  'language-not-supported': 'This browser no longer understands the language of the page on this device.',
};

/** Listens for the player's commands, on this device only. */
export class Listening {
  readonly #language: string;
  readonly #obey: (command: SpokenCommand) => void;
  readonly #ended: (why: string) => void;
  #recogniser: Recogniser | undefined;
  #silentEnds = 0;

  /** @param ended is given why listening ended by itself */
  constructor(language: string, scope: Scope, obey: (command: SpokenCommand) => void, ended: (why: string) => void) {
    this.#language = language;
    this.#obey = obey;
    this.#ended = ended;
    scope.onEnd(() => this.stop());
  }

  /** The words to say. */
  get words(): string[] {
    return commandWords(this.#language);
  }

  get on(): boolean {
    return this.#recogniser !== undefined;
  }

  start(): void {
    const Recogniser = recognisers();
    if (!Recogniser || this.#recogniser) return;
    const recogniser = new Recogniser();
    this.#recogniser = recogniser;
    this.#silentEnds = 0;
    recogniser.lang = this.#language;
    recogniser.continuous = true;
    recogniser.processLocally = true;
    let begun = performance.now();
    recogniser.addEventListener('result', (event) => this.#heard(event as RecognitionEvent));
    recogniser.addEventListener('error', (event) => {
      const why = ENDED[(event as SpeechRecognitionErrorEvent).error];
      if (why) this.#giveUp(recogniser, why);
    });
    // Browsers end it after a silence; at a bench there is mostly silence.
    recogniser.addEventListener('end', () => {
      if (this.#recogniser !== recogniser) return;
      this.#silentEnds = performance.now() - begun < AT_ONCE ? this.#silentEnds + 1 : 0;
      if (this.#silentEnds >= SILENT_ENDS) {
        this.#giveUp(recogniser, 'This browser stopped listening.');
        return;
      }
      begun = performance.now();
      recogniser.start();
    });
    recogniser.start();
  }

  stop(): void {
    const recogniser = this.#recogniser;
    this.#recogniser = undefined;
    recogniser?.abort();
  }

  #giveUp(recogniser: Recogniser, why: string): void {
    if (this.#recogniser !== recogniser) return;
    this.stop();
    this.#ended(why);
  }

  #heard({ results, resultIndex }: RecognitionEvent): void {
    // The page's own voice, reading a step aloud, asks for nothing.
    if (window.speechSynthesis?.speaking) return;
    for (const result of Array.from(results).slice(resultIndex)) {
      const command = result.isFinal ? spokenCommand(result[0]?.transcript ?? '', this.#language) : undefined;
      if (command) this.#obey(command);
    }
  }
}
