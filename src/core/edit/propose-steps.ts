import { fromSeconds, type Range, type Ticks, ticks, toSeconds } from '../time/index.ts';
import { titleFromSpeech } from './step-title.ts';

/** Words with the time they are said at. */
export interface Spoken {
  readonly range: Range<'recording'>;
  readonly text: string;
}

/** Where a step seems to begin, and what it might be called. */
export interface ProposedStep {
  /** From a breath before its first word to the end of what is said in one go. */
  readonly range: Range<'recording'>;
  readonly title: string;
  /** One line, small letter, no full stop. */
  readonly reason: string;
}

/** Whoever rests this long has done something with the hands meanwhile, and may go on to the next thing, s. */
const PAUSE = 4;
/** A rest this short is within a sentence, s. */
const WITHIN = 1.2;
/** Left before the first word, s. */
const BREATH = 0.5;
/** Steps lie at least this far apart: of two rests nearer than this the longer one counts, s. */
const APART = 25;
/** A word that says that something else begins. (Common speech, no source.) */
const ONWARDS = /^(?:now|next|then|after that|first|second|third|finally|last|lastly|okay|ok|all right|right)\b/iu;
/** What such a word is worth, in seconds of rest. */
const WORTH = 15;

/**
 * Where steps seem to begin: after the longest rests in what is said, and at a word such as "next". Each has a title
 * made of the first words. Nothing is applied.
 *
 * @param spoken captions in recording time; what stands in brackets, such as [clap], is no speech
 * @returns in the order of the recording, at least 25 s apart
 */
export function proposeSteps(spoken: readonly Spoken[]): ProposedStep[] {
  const sentences = sentencesOf(spoken);
  const starts = sentences.map(({ range, text }, i) => {
    const before = sentences[i - 1];
    const rest = before ? toSeconds(range.start - before.range.end) : APART;
    const onwards = ONWARDS.test(text);
    return { i, at: range.start, rest, onwards, weight: rest + (onwards ? WORTH : 0) };
  });
  const taken: typeof starts = [];
  for (const one of starts.toSorted((a, b) => b.weight - a.weight || a.at - b.at)) {
    if (one.rest < PAUSE && !one.onwards) continue;
    if (taken.every(({ at }) => Math.abs(toSeconds(at - one.at)) >= APART)) taken.push(one);
  }
  const inOrder = taken.toSorted((a, b) => a.at - b.at);
  return inOrder.flatMap(({ i, at, rest, onwards }, n): ProposedStep[] => {
    const said = sentences.slice(i, inOrder[n + 1]?.i);
    const title = titleFromSpeech(said.map(({ text }) => text).join(' '));
    if (!title) return [];
    const start = ticks<'recording'>(Math.max(0, at - fromSeconds(BREATH)));
    const end: Ticks<'recording'> = said.at(-1)?.range.end ?? at;
    const reason =
      i === 0 ? 'the first words' : `said after ${Math.round(rest)} s${onwards ? ', and to come next' : ''}`;
    return [{ range: { start, end }, title, reason }];
  });
}

/** Captions put together until a sentence ends or somebody rests. */
function sentencesOf(spoken: readonly Spoken[]): Spoken[] {
  const found: Spoken[] = [];
  for (const { range, text } of spoken) {
    const words = text
      .replaceAll(/\[[^\]]*\]|\([^)]*\)/gu, ' ')
      .replaceAll(/\s+/gu, ' ')
      .trim();
    if (!/\p{L}/u.test(words)) continue;
    const last = found.at(-1);
    const goesOn = last && !/[.!?…]["”’]?$/u.test(last.text) && toSeconds(range.start - last.range.end) < WITHIN;
    if (goesOn)
      found[found.length - 1] = { range: { start: last.range.start, end: range.end }, text: `${last.text} ${words}` };
    else found.push({ range, text: words });
  }
  return found;
}
