import { lastUpTo } from '../time/index.ts';
import type { Token } from './tokens.ts';

/** The words round a number, in small letters. */
export interface Said {
  /** The sentence so far, its last words only. */
  readonly before: string;
  /** The end of what was said before this sentence. */
  readonly earlier: string;
  /** The rest of the sentence behind a token, its next words only. */
  readonly after: (to: number) => string;
  /** What comes behind that sentence, its mark first; nothing where the rest is long. */
  readonly beyond: (to: number) => string;
}

export const NOTHING_SAID: Said = { before: '', earlier: '', after: () => '', beyond: () => '' };

/** The end of a sentence; `max. 0.1 mm` is none, `10 mm max. I do five` one. */
const STOP =
  /(?<!\b(?:[Mm]ax|[Mm]in|[Aa]pprox|ca|[Nn]o|nr|ft|lbs?|[Ff]ig|vs|incl|dia))[.!?;]\s|(?<=\b(?:max|min))\.\s(?=[A-Z])/g;
const END = /[.!?;](\s|$)/;
/** So many words before a number can say what it is. */
const NEAR = 22;
/** So many characters of them: what is looked at round one number stays small in any text. */
const BEFORE = 200;
/** So many characters behind a quantity can say what it is. */
const AFTER = 160;
/** So many of the next sentence. */
const BEYOND = 90;
/** So many characters of the sentences before can say what a limit is a limit of. */
const EARLIER = 120;

/** Finds the words round any token of a text, in a time that does not depend on how long the text is. */
export class Surroundings {
  readonly #text: string;
  readonly #tokens: readonly Token[];
  readonly #earlier: string;
  #known: readonly number[] | undefined;

  /** @param earlier what was said before the text */
  constructor(text: string, tokens: readonly Token[], earlier: string) {
    this.#text = text;
    this.#tokens = tokens;
    this.#earlier = earlier.slice(-EARLIER).toLowerCase();
  }

  /** Where sentences begin, ascending. */
  get #begins(): readonly number[] {
    this.#known ??= [0, ...Array.from(this.#text.matchAll(STOP), ({ index }) => index + 2)];
    return this.#known;
  }

  #sentence(start: number): number {
    return lastUpTo(this.#begins, start, (begin) => begin) ?? 0;
  }

  of(at: number): Said {
    return new SaidRound(this, this.#tokens[at]?.start ?? 0);
  }

  before(start: number): string {
    const cut = this.#sentence(start);
    const from = Math.max(cut, start - BEFORE);
    const words = this.#text.slice(from, start).split(/\s+/);
    // Captions without full stops are one long sentence: what was said long before has nothing to do with it.
    return words
      .slice(from > cut ? Math.max(1, words.length - NEAR) : -NEAR)
      .join(' ')
      .toLowerCase();
  }

  earlier(start: number): string {
    const cut = this.#sentence(start);
    const own = this.#text.slice(Math.max(0, cut - EARLIER), cut).toLowerCase();
    return `${this.#earlier} ${own}`.slice(-EARLIER);
  }

  after(to: number): string {
    const from = this.#tokens[to - 1]?.end ?? 0;
    const rest = this.#text.slice(from, from + AFTER);
    const stop = END.exec(rest);
    return (stop ? rest.slice(0, stop.index) : rest).toLowerCase();
  }

  beyond(to: number): string {
    const from = this.#tokens[to - 1]?.end ?? 0;
    const stop = END.exec(this.#text.slice(from, from + AFTER));
    return stop ? this.#text.slice(from + stop.index, from + stop.index + BEYOND).toLowerCase() : '';
  }
}

/** `more than, ooh, thirty`: what is said while somebody thinks. */
const FILLER =
  /(?<= )(?:uh|um|erm?|ooh),?\s+$|(?<=\b(?:between|from|than|about|to|at|is|by|of|over|under|within|below|above|past|least|most|took me|takes me|takes|took|need)),\s*(?:what|er|erm|um|uh|ooh|oh|say|let['’]s (?:say|see)|let me (?:see|think|look)|what did i say(?: earlier)?|what was it|what is it|er|i['’]d say|i don['’]t know|you know|call it|roughly|i think|i reckon),\s*$/;

const NUMBER_WORDS =
  '(?:[a-z]*(?:teen|ty)|ten|eleven|twelve|one|two|three|four|five|six|seven|eight|nine|half|quarter|a|hundred|thousand|point|and|[\\d.,/]+)';
const TAKEN_BACK = '(?:no,? )?(?:sorry|i mean|correction|make that|scratch that|no)';
/** `no more than eighteen, sorry, eight thou`: a limit stays one over its correction. */
const CORRECTED = new RegExp(
  `(?<=\\b(?:than|over|under|most|least|up to|exceed|above|below|past|beyond)) ${NUMBER_WORDS}(?:[ -]${NUMBER_WORDS}){0,5},? ${TAKEN_BACK}[, ]+$`,
);

/** Each part is made when it is first asked for: most numbers need none of them. */
class SaidRound implements Said {
  readonly #all: Surroundings;
  readonly #start: number;
  #before: string | undefined;
  #earlier: string | undefined;
  #after: { to: number; text: string } | undefined;

  constructor(all: Surroundings, start: number) {
    this.#all = all;
    this.#start = start;
  }

  get before(): string {
    this.#before ??= this.#all.before(this.#start).replace(FILLER, ' ').replace(CORRECTED, ' ');
    return this.#before;
  }

  get earlier(): string {
    this.#earlier ??= this.#all.earlier(this.#start);
    return this.#earlier;
  }

  readonly beyond = (to: number): string => this.#all.beyond(to);

  readonly after = (to: number): string => {
    if (this.#after?.to !== to) this.#after = { to, text: this.#all.after(to) };
    return this.#after.text;
  };
}
