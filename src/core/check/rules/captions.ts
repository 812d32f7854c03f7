import type { Caption, Recording, Shop } from '../../model/index.ts';
import { type Retimed, retimeCaptions } from '../../programme/index.ts';
import { range, TICKS_PER_SECOND, ticks } from '../../time/index.ts';
import { unreadHeard, unreadId } from '../../words/index.ts';
import type { Finding } from '../rule.ts';
import { replaceIn, type Sample } from '../sample.ts';

/** Captions of one recording, as read and as the programme shows them. */
export interface Captioned {
  readonly recording: Recording;
  readonly cues: readonly Caption[];
  readonly programme: Retimed;
  /** Those that a machine wrote, nobody has read, and the programme shows. */
  readonly unread: readonly Caption[];
}

/** Every rule about captions asks the same of a recording. */
const known = new WeakMap<Recording, readonly Captioned[]>();

/** Each recording that has captions. */
export function recordingsWithCaptions({ recordings }: Pick<Shop, 'recordings'>): Captioned[] {
  return recordings.flatMap((recording) => {
    const found = known.get(recording) ?? captioned(recording);
    known.set(recording, found);
    return found;
  });
}

function captioned(recording: Recording): readonly Captioned[] {
  const cues = recording.captions?.cues ?? [];
  if (cues.length === 0) return [];
  const unread = unreadHeard(cues, recording.edit);
  return [{ recording, cues, programme: retimeCaptions(cues, recording.edit), unread }];
}

/** So many of one kind are told of a file; a habit of its writer is one thing to mend, not a thousand. */
const TOLD = 5;

/** The first findings, and how many more there are. */
export function* first(findings: Iterable<Finding>, more: string): Generator<Finding> {
  let last: Finding | undefined;
  let untold = 0;
  let told = 0;
  for (const finding of findings) {
    if (told < TOLD) {
      told++;
      yield finding;
    } else {
      last ??= finding;
      untold++;
    }
  }
  if (last) yield { ...last, message: `${untold} more ${more}` };
}

/** The start of a caption's words, for a message. */
export function quoteWords(text: string): string {
  const line = text.replaceAll(/\s+/g, ' ').trim();
  return `"${line.length > 40 ? `${line.slice(0, 39).trimEnd()}…` : line}"`;
}

/** The rest of the sample recording, so that no stretch of it is without captions. */
const REST = '\n00:20.000 --> 04:50.000\n[working]\n\n06:00.000 --> 09:00.000\n[working]\n';

/** The sound shop with these WebVTT cues, and the rest of the recording captioned unless told otherwise. */
export function cues(text: string, rest = REST): Sample {
  const file = 'media/words.vtt';
  const sample = replaceIn('recordings/chain.yaml', 'media/chain.vtt', file);
  return { ...sample, files: { ...sample.files, [file]: `WEBVTT\n\n${text}\n${rest}` } };
}

/** A cue as a machine writes it. @param start, end s, below a minute */
export function unreadCue(start: number, end: number, words: string): string {
  const at = range(ticks<'recording'>(start * TICKS_PER_SECOND), ticks<'recording'>(end * TICKS_PER_SECOND));
  const time = (seconds: number) => `00:${String(seconds).padStart(2, '0')}.000`;
  return `${unreadId({ at, text: words })}\n${time(start)} --> ${time(end)}\n${words}`;
}
