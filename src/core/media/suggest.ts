import {
  type EditList,
  editList,
  fromSeconds,
  intersect,
  lengthOf,
  must,
  OPEN_END,
  type Range,
  range,
  runtime,
  type Ticks,
  ticks,
  toSeconds,
  within,
  without,
} from '../time/index.ts';
import type { Presence } from './presence.ts';

/** What is known of a recording when cuts are proposed, in recording time. */
export interface SuggestFrom {
  readonly length: Ticks<'recording'>;
  readonly edit: EditList;
  readonly silence: readonly Range<'recording'>[];
  readonly freeze: readonly Range<'recording'>[];
  readonly black: readonly Range<'recording'>[];
  readonly claps: readonly Ticks<'recording'>[];
  /** First moments of the camera files. */
  readonly starts: readonly Ticks<'recording'>[];
  readonly captions: readonly { readonly at: Range<'recording'>; readonly text: string }[];
  /** Talk, work and nobody; only where talk was told from other sound, not where loudness stands for it. */
  readonly presence?: Presence | undefined;
}

export type SuggestionKind = 'dead-air' | 'wait' | 'black' | 'slate' | 'retake';

/** A cut worth making. */
export interface Suggestion {
  readonly kind: SuggestionKind;
  readonly cut: Range<'recording'>;
  /** One line, small letter, no full stop. */
  readonly reason: string;
  /** Ticks of programme it wins: what of it is kept now. */
  readonly wins: number;
}

/** Quiet this long with nothing moving is dead air, s; quiet with hands at work is looked at only when longer, s. */
const STILL = 4;
const QUIET = 20;
/** Nothing heard and nothing moving for this long is an empty bench, not somebody who thinks, s. */
const EMPTY = 8;
/** Work that nobody says a word to for this long is a wait, s; so much of it is left at both ends, s. (Common practice, no source.) */
const WAIT = 60;
const SHOWN = 5;
/** What is left of a rest at both sides, s: speech needs room to breathe. */
const BREATH = 0.6;
/** A caption stays to be read for this long after its last word, at most, s; a cut waits for it. */
const LINGERS = 2;
/** Longer than a frame at any rate in use, s: the cut begins at the frame before, which may not be the caption's. */
const FRAME = 0.1;
/** Cuts that win less are not worth a join, s. */
const LEAST = 1.5;
/** A clap this near the beginning of a file is a slate, s. */
const SLATE = 45;
/** So is one this soon after long quiet, with no more said in between than what is on the slate, s. */
const ROLL = 15;
const ANNOUNCED = 5;
/** Knocks nearer to each other than this are work, not claps, s. */
const ALONE = 5;
/** A sentence said again within this time was taken again, s. */
const RETAKE = 120;
/** Share of words in common, and words at least, for two sentences to be the same one. */
const SAME = 0.75;
/** The same for a sentence that was broken off, against as much of the later one. */
const BEGUN = 0.9;
const FEWEST_WORDS = 5;

/**
 * Cuts that look worth making, each with its reason; nothing is applied.
 *
 * @returns in the order of the recording, not overlapping
 */
export function suggestCuts(from: SuggestFrom): Suggestion[] {
  const found = [...slates(from), ...retakes(from), ...blacks(from), ...deadAir(from)];
  found.push(...waits(from, editList(found.map(({ cut }) => cut))));
  const whole = range(ticks<'recording'>(0), from.length);
  const taken: Suggestion[] = [];
  for (const one of found) {
    const free = without(within([one.cut], whole), editList(taken.map(({ cut }) => cut)));
    for (const cut of free) {
      const wins = runtime(within(from.edit, cut));
      if (toSeconds(wins) >= LEAST) taken.push({ ...one, cut, wins });
    }
  }
  return taken.toSorted((a, b) => a.cut.start - b.cut.start);
}

type Candidate = Omit<Suggestion, 'wins'>;

function deadAir({ silence, freeze, length, presence, captions }: SuggestFrom): Candidate[] {
  // Quiet talk is talk, however far below the noise of the tools.
  const quietest = presence ? without(editList(silence), presence.talk) : silence;
  return quietest.flatMap((quiet): Candidate[] => {
    const rest = inner(quiet, length);
    const cut = rest && afterCaption(rest, captions);
    if (!cut) return [];
    const seconds = toSeconds(lengthOf(quiet));
    const words = inWords(seconds);
    const still = freeze.reduce((sum, frozen) => sum + toSeconds(lengthOf(intersect(frozen, quiet) ?? empty)), 0);
    if (still >= STILL && still >= seconds / 2)
      return [{ kind: 'dead-air', cut, reason: `${words} without a word, and the picture stands still` }];
    if (!presence) return seconds >= QUIET ? [{ kind: 'dead-air', cut, reason: `${words} without a word` }] : [];
    const nobody = toSeconds(runtime(within(presence.nobody, quiet)));
    if (nobody >= EMPTY && nobody >= seconds / 2)
      return [
        { kind: 'dead-air', cut, reason: `${words} without a word or a sound, and nothing moves: nobody is there` },
      ];
    return seconds >= QUIET
      ? [{ kind: 'wait', cut, reason: `${words} without a word or a sound, though something moves in the picture` }]
      : [];
  });
}

/**
 * Long work with its sounds and no word, outside of what is proposed already: its beginning and its end are enough to
 * see. In a recording in which nobody ever speaks, silence says nothing.
 */
function waits({ presence, length }: SuggestFrom, proposed: EditList): Candidate[] {
  if (!presence || presence.talk.length === 0) return [];
  const whole = editList(length > 0 ? [range(ticks<'recording'>(0), length)] : []);
  return without(without(whole, presence.talk), proposed).flatMap((silent): Candidate[] => {
    const seconds = toSeconds(lengthOf(silent));
    const worked = toSeconds(runtime(within(presence.work, silent)));
    if (seconds < WAIT || worked < seconds / 2) return [];
    const shown = fromSeconds<'recording'>(SHOWN);
    const cut = range(ticks<'recording'>(silent.start + shown), ticks<'recording'>(silent.end - shown));
    return [{ kind: 'wait', cut, reason: `${inWords(seconds)} of work without a word: a long wait to watch` }];
  });
}

function inWords(seconds: number): string {
  return seconds < 60 ? `${Math.round(seconds)} s` : `${(seconds / 60).toFixed(1)} min`;
}

const empty = range<'recording'>(ticks(0), ticks(0));

/** A quiet stretch less a breath at both sides; whole at the ends of the recording. */
function inner({ start, end }: Range<'recording'>, length: Ticks<'recording'>): Range<'recording'> | undefined {
  const breath = fromSeconds<'recording'>(BREATH);
  const from = start === 0 ? start : ticks<'recording'>(start + breath);
  const until = end >= length ? end : ticks<'recording'>(end - breath);
  return until > from ? range(from, until) : undefined;
}

/** A cut that leaves the caption whole which is on screen as it begins. */
function afterCaption(cut: Range<'recording'>, captions: SuggestFrom['captions']): Range<'recording'> | undefined {
  const last = ticks<'recording'>(cut.start + fromSeconds(LINGERS));
  const read = captions.find(({ at }) => at.start < cut.start && at.end > cut.start && at.end <= last);
  if (!read) return cut;
  const from = ticks<'recording'>(read.at.end + fromSeconds(FRAME));
  return from < cut.end ? range(from, cut.end) : undefined;
}

function blacks({ black }: SuggestFrom): Candidate[] {
  return black.map((cut) => ({ kind: 'black', cut, reason: 'the picture is black' }));
}

function slates({ claps, starts, silence }: SuggestFrom): Candidate[] {
  const alone = claps.filter(
    (at, i) =>
      toSeconds(at - (claps[i - 1] ?? -OPEN_END)) > ALONE && toSeconds((claps[i + 1] ?? OPEN_END) - at) > ALONE,
  );
  const restAfter = (clap: number) => silence.find(({ start, end }) => end > clap && toSeconds(start - clap) < 2);
  const slateAt = (start: Ticks<'recording'>, clap: Ticks<'recording'>, when: string): Candidate => {
    const rest = restAfter(clap);
    const breath = fromSeconds<'recording'>(BREATH);
    const end = rest ? ticks<'recording'>(Math.max(clap, rest.end - breath)) : ticks<'recording'>(clap + breath);
    return { kind: 'slate', cut: range(start, end), reason: `a clap soon after ${when}: the take begins after it` };
  };
  const atStart = starts.flatMap((start): Candidate[] => {
    const clap = alone.findLast((at) => at >= start && toSeconds(at - start) < SLATE);
    return clap === undefined ? [] : [slateAt(start, clap, 'the camera started')];
  });
  const afterQuiet = silence.flatMap((quiet): Candidate[] => {
    if (toSeconds(lengthOf(quiet)) < QUIET) return [];
    const clap = alone.findLast((at) => at >= quiet.end && toSeconds(at - quiet.end) < ROLL);
    if (clap === undefined || !restAfter(clap)) return [];
    const between = range(quiet.end, clap);
    const rests = silence.reduce((sum, rest) => sum + lengthOf(intersect(rest, between) ?? empty), 0);
    const start = ticks<'recording'>(quiet.end - fromSeconds(BREATH));
    return toSeconds(lengthOf(between) - rests) > ANNOUNCED ? [] : [slateAt(start, clap, 'long quiet')];
  });
  return [...atStart, ...afterQuiet];
}

function retakes({ captions, length }: SuggestFrom): Candidate[] {
  const sentences = captions
    // Captions may go on where the camera file breaks off.
    .filter(({ at }) => at.start < length)
    .map(({ at, text }) => ({ at, text, words: wordsOf(text) }));
  const found: Candidate[] = [];
  for (let i = 0; i < sentences.length; i++) {
    const first = sentences[i];
    if (!first || first.words.length < FEWEST_WORDS) continue;
    let again: (typeof sentences)[number] | undefined;
    for (const later of sentences.slice(i + 1)) {
      if (toSeconds(later.at.start - first.at.end) > RETAKE) break;
      if (isAgain(first.words, later.words)) again = later;
    }
    if (!again || again.at.start <= first.at.start) continue;
    const lead = again.at.start;
    found.push({
      kind: 'retake',
      cut: range(first.at.start, lead),
      reason: `"${shorten(first.text)}" is said again ${Math.round(toSeconds(again.at.start - first.at.start))} s later: the last take stays`,
    });
    while (sentences[i + 1] && (sentences[i + 1]?.at.start ?? lead) < lead) i++;
  }
  return found;
}

/** True when the later sentence is the first one said again, or goes on where the first was broken off. */
function isAgain(first: readonly string[], later: readonly string[]): boolean {
  if (alike(first, later) >= SAME) return true;
  return later.length > first.length && alike(first, later.slice(0, first.length)) >= BEGUN;
}

function wordsOf(text: string): string[] {
  return text.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [];
}

/**
 * How alike two sentences are, 0 … 1: words in the same order in both, of all words of the longer one.
 * Source: longest common subsequence, as in every textbook of algorithms.
 */
function alike(a: readonly string[], b: readonly string[]): number {
  let row: number[] = new Array(b.length + 1).fill(0);
  for (const word of a) {
    const next = [0];
    for (let j = 1; j <= b.length; j++)
      next[j] =
        b[j - 1] === word
          ? must(row[j - 1], 'how many words are alike') + 1
          : Math.max(must(row[j], 'how many words are alike'), must(next[j - 1], 'how many words are alike'));
    row = next;
  }
  return a.length === 0 || b.length === 0
    ? 0
    : must(row[b.length], 'how many words are alike') / Math.max(a.length, b.length);
}

function shorten(text: string): string {
  const plain = text.replaceAll(/\s+/g, ' ').trim();
  return plain.length > 50 ? `${plain.slice(0, 48).trimEnd()}…` : plain;
}
