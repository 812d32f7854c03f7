import { type Caption, noisesOf } from './heard.ts';
import type { Shot } from './script/timeline.ts';
import type { SceneSound, Spoken } from './sound/soundtrack.ts';

const LINE = 42;
const LONGEST = LINE * 2;
const SHORTEST = 2;
/** Words a second that most people can read beside a picture (160 a minute). */
const PACE = 160 / 60;
/** How long a caption may come up before its first word, s. */
const EARLY = 0.3;
/** Of the pause after a sentence, what its parts may share, s; less than any pause. */
const BREATH_AFTER = 0.5;
/** How long a caption may stay after the last word, s. */
const LINGER = 1.4;

/** What was heard as WebVTT in recording time: words, and the sounds between them. */
export function captionsOf(shots: readonly Shot[], sounds: readonly SceneSound[]): string {
  const heard = shots.flatMap((shot, i) => {
    const sound = sounds[i];
    return sound ? [...noisesOf(shot, sound), ...joined(sound.spoken).flatMap(split)] : [];
  });
  const sorted = heard.toSorted((a, b) => a.start - b.start).map((cue, i, all) => stretched(cue, all[i + 1]));
  const cues = sorted.map((cue, i, all) => opened(cue, all[i - 1]));
  return `WEBVTT\n\n${cues.map(({ start, end, text }) => `${clock(start)} --> ${clock(end)}\n${wrapped(text).replaceAll('\u00a0', ' ')}\n`).join('\n')}`;
}

/** Short sentences that follow each other at once stand in one caption; one too short to be read joins the next. */
function joined(spoken: readonly Spoken[]): readonly Caption[] {
  const cues: Caption[] = [];
  for (const { text, start, end } of spoken) {
    const last = cues.at(-1);
    const near = last !== undefined && start - last.end < 0.9;
    const short = last !== undefined && (text.length < 24 || last.text.length < 24);
    if (near && (start - last.start < SHORTEST || (short && last.text.length + text.length < LONGEST)))
      cues[cues.length - 1] = { start: last.start, end, text: `${last.text} ${text}` };
    else cues.push({ start, end, text });
  }
  return cues;
}

/** A sentence too long for two lines, in parts that last as long as their words, so that each can be read. */
function split({ start, end, text }: Caption): readonly Caption[] {
  if (text.length <= LONGEST - 4) return [{ start, end, text }];
  const words = text.split(' ');
  const parts = Math.ceil(text.length / (LONGEST - 10));
  const aim = text.length / parts;
  const texts: string[] = [];
  let now = '';
  for (const word of words) {
    const longer = now ? `${now} ${word}` : word;
    const atComma = now.endsWith(',') && now.length > aim * 0.7;
    if (texts.length < parts - 1 && (longer.length > aim + 6 || atComma)) {
      texts.push(now);
      now = word;
    } else now = longer;
  }
  texts.push(now);
  let at = start;
  return texts.map((part) => {
    const until = at + ((end + BREATH_AFTER - start) * wordsIn(part)) / wordsIn(text);
    const cue = { start: at, end: until, text: part };
    at = until;
    return cue;
  });
}

const wordsIn = (text: string) => text.split(/\s+/).length;

/** Stays up a little longer, where nothing follows at once. */
function stretched(cue: Caption, next: Caption | undefined): Caption {
  const readable = Math.min(cue.end + LINGER, cue.start + wordsIn(cue.text) / PACE);
  const end = Math.max(cue.end + 0.3, cue.start + SHORTEST, readable);
  return { ...cue, end: Math.min(end, next?.start ?? end) };
}

/** Comes up a little before the first word, where the time after the last one is too short to read it. */
function opened(cue: Caption, before: Caption | undefined): Caption {
  const missing = wordsIn(cue.text) / PACE - (cue.end - cue.start);
  return { ...cue, start: Math.max(before?.end ?? 0, cue.start - Math.max(0, Math.min(EARLY, missing))) };
}

/** In two lines where it is too long for one; no-break spaces hold a value together. */
function wrapped(text: string): string {
  if (text.length <= LINE) return text;
  const spaces = [...text.matchAll(/ /g)].map(({ index }) => index);
  const middle = spaces.toSorted((a, b) => Math.abs(a - text.length / 2) - Math.abs(b - text.length / 2))[0] ?? 0;
  return `${text.slice(0, middle)}\n${text.slice(middle + 1)}`;
}

function clock(seconds: number): string {
  const ms = Math.round(seconds * 1000);
  const two = (value: number) => String(value).padStart(2, '0');
  return `${two(Math.floor(ms / 3_600_000))}:${two(Math.floor(ms / 60_000) % 60)}:${two(Math.floor(ms / 1000) % 60)}.${String(ms % 1000).padStart(3, '0')}`;
}
