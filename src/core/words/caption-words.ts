import { webvttTime } from '../programme/index.ts';
import { escapeMarkup } from '../read/index.ts';
import { type Range, range, TICKS_PER_SECOND, ticks } from '../time/index.ts';
import type { TimedWord } from './time-words.ts';

/** Characters of a line, and lines of a caption. (Common practice for captions on the web, no source.) */
const LINE = 42;
/** A pause this long begins another caption, s. */
const PAUSE = 0.6;
/** A short sentence shares its caption with the next one, characters. */
const SHORT = 24;
/** No caption shorter (DCMP Captioning Key), s. */
const SHORTEST = 2;
/** Words a second that most people can read beside a picture: 160 a minute. */
const READ = 160 / 60;
/** Where there is time a caption comes up so much before its first word, and stays so long after its last one, s. */
const EARLY = 0.3;
const LINGER = 1.4;
const MS = TICKS_PER_SECOND / 1000;

/** A caption made of words with their times. */
export interface WordCaption {
  readonly at: Range<'recording'>;
  /** WebVTT cue text, with a time before each word but the first. */
  readonly markup: string;
  /** The words alone, line by line. */
  readonly text: string;
}

/**
 * Captions of two lines at most, split at pauses and where sentences end, each as long on the screen as it takes to
 * read where the next one leaves time for it.
 *
 * @param words in order
 * @param length of the recording, s
 */
export function captionsOf(words: readonly TimedWord[], length: number): WordCaption[] {
  const groups = withCompany(grouped(words));
  const times = groups.map((group) => ({ start: group[0]?.start ?? 0, end: group.at(-1)?.end ?? 0 }));
  let until = 0;
  return groups.map((group, i) => {
    const { start, end } = times[i] ?? { start: 0, end: 0 };
    const next = times[i + 1]?.start ?? length;
    const wanted = Math.max(SHORTEST, group.length / READ);
    const latest = Math.max(end, Math.min(next, end + LINGER, length));
    const stop = Math.max(end, Math.min(latest, start + wanted));
    const begin = Math.max(until, start - Math.max(0, Math.min(EARLY, wanted - (stop - start))));
    // Where it is still too short, the next one is not near: it stays.
    const last = Math.max(stop, Math.min(begin + SHORTEST, next, length));
    until = last;
    return captionFrom(group, begin, last);
  });
}

function captionFrom(group: readonly TimedWord[], start: number, end: number): WordCaption {
  const whole = (seconds: number) => Math.round(seconds * 1000) * MS;
  const [from, until] = [whole(start), Math.max(whole(end), whole(start) + MS)];
  const breakAfter = lineBreak(group.map(({ text }) => text));
  let markup = '';
  let text = '';
  let told = from;
  group.forEach((word, i) => {
    const between = i === 0 ? '' : i === breakAfter ? '\n' : ' ';
    const time = whole(word.start);
    const tag = i > 0 && time > told && time < until ? `<${webvttTime(time)}>` : '';
    if (tag) told = time;
    markup += `${between}${tag}${escapeMarkup(word.text)}`;
    text += `${between}${word.text}`;
  });
  return { at: range(ticks(from), ticks(until)), markup, text };
}

/** Which word begins the second line, so that both are about as long; none where one line holds all. */
function lineBreak(words: readonly string[]): number {
  const whole = words.join(' ').length;
  if (whole <= LINE) return -1;
  let best = -1;
  let bestApart = Number.POSITIVE_INFINITY;
  let before = 0;
  for (let i = 1; i < words.length; i++) {
    before += (words[i - 1]?.length ?? 0) + 1;
    const [first, second] = [before - 1, whole - before];
    const apart = Math.abs(first - second) + (Math.max(first, second) > LINE ? 1000 : 0);
    if (apart < bestApart) [best, bestApart] = [i, apart];
  }
  return best;
}

/** True where the words fit into two lines. */
function fits(words: readonly string[]): boolean {
  const second = lineBreak(words);
  if (second < 0) return words.join(' ').length <= LINE;
  return [words.slice(0, second), words.slice(second)].every((line) => line.join(' ').length <= LINE);
}

/** What is followed too soon to be read shares its caption with what follows, where both fit. */
function withCompany(groups: readonly TimedWord[][]): TimedWord[][] {
  const joined: TimedWord[][] = [];
  for (const group of groups) {
    const last = joined.at(-1);
    const soon = (group[0]?.start ?? 0) - (last?.[0]?.start ?? 0) < SHORTEST;
    if (last && soon && fits([...last, ...group].map(({ text }) => text))) last.push(...group);
    else joined.push([...group]);
  }
  return joined;
}

function grouped(words: readonly TimedWord[]): TimedWord[][] {
  const groups: TimedWord[][] = [];
  let group: TimedWord[] = [];
  const end = () => {
    if (group.length > 0) groups.push(group);
    group = [];
  };
  for (const word of words) {
    const last = group.at(-1);
    if (last && word.start - last.end >= PAUSE) end();
    else if (last?.ends && group.map(({ text }) => text).join(' ').length >= SHORT) end();
    else if (group.length > 0 && !fits([...group, word].map(({ text }) => text))) {
      // At the last comma of the second half, where there is one.
      const comma = group.findLastIndex(({ text }) => /[,;:.!?–—]$/.test(text));
      const rest = comma >= group.length / 2 ? group.splice(comma + 1) : [];
      end();
      group = rest;
    }
    group.push(word);
  }
  end();
  return groups;
}
