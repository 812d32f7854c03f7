import type { Recording } from '../model/index.ts';
import {
  type FrameRate,
  fail,
  framesBetween,
  framesPerDay,
  lastUpTo,
  ok,
  type Parsed,
  parseTimecode,
  ticks,
} from '../time/index.ts';
import { brief, type Imported, type ImportedMark, MOST_EVENTS, MOST_LINES, MOST_TEXT, Notes } from './imported.ts';
import { editOf, findFile, framesInto, runOf, type SourceRun, withDropFrame } from './source-runs.ts';

const EVENT =
  /^(\d{1,6})\s+(\S+)\s+(\S+)\s+(C|D|W\d{1,3}|KB?|KO)\s+(?:(\d{1,4})\s+)?(\d\d:\d\d:\d\d[:;.]\d\d)\s+(\d\d:\d\d:\d\d[:;.]\d\d)\s+(\d\d:\d\d:\d\d[:;.]\d\d)\s+(\d\d:\d\d:\d\d[:;.]\d\d)\s*$/;
const LOCATOR = /^\*\s*LOC:\s*(\d\d:\d\d:\d\d[:;.]\d\d)\s+(\S+)\s*(.*)$/;

interface Event {
  readonly number: string;
  readonly reel: string;
  readonly track: string;
  readonly transition: string;
  readonly times: readonly [number, number, number, number];
  /** How the labels of this event are counted. */
  readonly counted: FrameRate;
  readonly line: number;
  name: string;
}

interface Locator {
  readonly frame: number;
  readonly title: string;
  readonly colour: string;
}

/**
 * An EDL as the edit list of a recording, and its locators as marks.
 *
 * Out points are exclusive; where every record out lies one frame before the next record in, the list was written
 * with inclusive ones, and that is told. Picture events decide; sound that was cut apart, transitions, speed changes,
 * titles and black are listed.
 * Source: SMPTE 258M conventions as published readers have them (see tests/reference/interchange).
 */
export function readEdl(text: string, recording: Recording): Parsed<Imported> {
  const { rate } = recording;
  if (!rate) return fail(`the frame rate of ${recording.id} is not known`, 'write rate: in the recording file');
  if (text.length > MOST_TEXT) return fail('the file is too long for an EDL', 'take the list of one recording');
  const notes = new Notes();
  const { events, locators } = parse(text, rate, notes);
  if (events.length === 0)
    return fail('the file holds no event of an EDL', 'an event reads: 001  REEL  V  C  and four timecodes');
  const picture = events.filter(({ track }) => track === 'B' || track.includes('V'));
  const shown = picture.length > 0 ? picture : events;
  if (picture.length > 0 && picture.length < events.length)
    notes.add(`${events.length - picture.length} events of sound alone were left out: sound follows the picture here`);
  tellInclusive(shown, notes);
  const placed = shown.flatMap((event) => {
    const run = sourceRun(event, recording, rate, notes);
    return run ? [{ event, run }] : [];
  });
  const marks = marksFrom(locators, placed, rate, notes);
  return ok({
    ...editOf(
      placed.map(({ run }) => run),
      notes,
    ),
    ...(marks.length > 0 ? { marks } : {}),
    precision: rate.ticksPerFrame,
    notes: notes.all(),
  });
}

function parse(text: string, rate: FrameRate, notes: Notes): { events: Event[]; locators: Locator[] } {
  const events: Event[] = [];
  const locators: Locator[] = [];
  let counted = rate;
  let at = 0;
  for (let number = 1; at < text.length; number++) {
    if (events.length > MOST_EVENTS || locators.length > MOST_EVENTS || number > MOST_LINES) {
      notes.add(`only the first ${MOST_EVENTS} events were read`);
      break;
    }
    const next = text.indexOf('\n', at);
    const end = next === -1 ? text.length : next;
    // No line of an EDL is longer; what is, is told by its start.
    const line = text.slice(at, Math.min(end, at + 500)).trim();
    at = end + 1;
    if (line === '' || /^(TITLE|\d+\s*$)/.test(line)) continue;
    const mode = /^FCM:\s*(NON-?\s?)?DROP/i.exec(line);
    if (mode) {
      counted = withDropFrame(rate, mode[1] === undefined);
      if (counted.dropped > 0 !== (mode[1] === undefined))
        notes.add(`the list says ${brief(line)}, which ${rate.name} frames a second cannot be counted in`);
      continue;
    }
    const locator = LOCATOR.exec(line);
    if (locator) {
      const frame = label(locator[1] ?? '', counted, rate);
      if (frame === undefined)
        notes.add(`line ${number}: the locator's timecode is not one, so "${brief(locator[3] ?? '')}" was left out`);
      else
        locators.push({ frame: frame.frame, title: (locator[3] ?? '').trim() || 'Untitled', colour: locator[2] ?? '' });
      continue;
    }
    const name = /^\*\s*(?:FROM|TO) CLIP NAME:\s*(.+)$/i.exec(line);
    const last = events.at(-1);
    if (name) {
      if (last) last.name = (name[1] ?? '').trim();
    } else if (line.startsWith('*')) {
      if (!/^\*\s*$/.test(line)) notes.add(`comment left out: ${brief(line)}`);
    } else if (/^M2\b/.test(line)) notes.add(`a change of speed cannot be carried: ${brief(line)}`);
    else readEvent(line, number, counted, rate, events, notes);
  }
  return { events, locators };
}

function readEvent(
  line: string,
  number: number,
  counted: FrameRate,
  rate: FrameRate,
  events: Event[],
  notes: Notes,
): void {
  const match = /^\d/.test(line) ? EVENT.exec(line) : null;
  if (!match) {
    notes.add(`line ${number} is not an event and was left out: ${brief(line)}`);
    return;
  }
  const [, event = '', reel = '', track = '', transition = '', , ...written] = match;
  const labels = written.slice(0, 4).map((one) => label(one, counted, rate));
  const [a, b, c, d] = labels;
  if (!a || !b || !c || !d) {
    const wrong = written[labels.indexOf(undefined)] ?? '';
    notes.add(`line ${number}: ${wrong} is not a timecode at ${counted.name}, so event ${event} was left out`);
    return;
  }
  if (transition !== 'C') notes.add(`event ${event}: the transition ${transition} became a cut`);
  events.push({
    number: event,
    reel,
    track,
    transition,
    counted: a.counted,
    times: [a.frame, b.frame, c.frame, d.frame],
    line: number,
    name: '',
  });
}

/** A label by its own separator where that says drop-frame, else as the list says it is counted. */
function label(text: string, counted: FrameRate, rate: FrameRate): { frame: number; counted: FrameRate } | undefined {
  const mode = /[;.]\d\d$/.test(text) ? withDropFrame(rate, true) : counted;
  const plain = text.replace(/[;.](\d\d)$/, mode.dropped > 0 ? ';$1' : ':$1');
  const frame = parseTimecode(plain, mode);
  return frame.ok ? { frame: frame.value, counted: mode } : undefined;
}

function sourceRun(event: Event, recording: Recording, rate: FrameRate, notes: Notes): SourceRun | undefined {
  const { reel, name, times, number } = event;
  const [sourceIn, sourceOut, recordIn, recordOut] = times;
  const called = name === '' ? `event ${number} of reel ${reel}` : name;
  if (/^BL(?:ACK)?$/i.test(reel)) {
    notes.add(`event ${number} is black, which an edit list cannot show`);
    return undefined;
  }
  const frames = length(sourceIn, sourceOut, event.counted);
  if (frames === 0) return undefined;
  if (frames < 0) {
    notes.add(`event ${number} ends before it starts, so it was left out`);
    return undefined;
  }
  if (length(recordIn, recordOut, event.counted) !== frames)
    notes.add(
      `event ${number} plays ${frames} frames in ${length(recordIn, recordOut, event.counted)}: a change of speed cannot be carried`,
    );
  const file = findFile(recording, [name, reel], notes);
  return file && runOf(file, rate, framesInto(recording, file, rate, sourceIn, event.counted), frames, notes, called);
}

/** Frames from one label to another, over midnight where that is the shorter way; negative when it is before. */
function length(from: number, to: number, counted: FrameRate): number {
  const ahead = framesBetween(from, to, counted);
  return ahead * 2 <= framesPerDay(counted) ? ahead : ahead - framesPerDay(counted);
}

function tellInclusive(events: readonly Event[], notes: Notes): void {
  const gaps = events.slice(1).map((event, i) => length(events[i]?.times[3] ?? 0, event.times[2], event.counted));
  if (gaps.length > 1 && gaps.every((gap) => gap === 1))
    notes.add(
      'every event ends one frame before the next begins: the list seems to name last frames, so each range may be a frame short',
    );
}

/** Locators sit on the record side; each goes to the moment of the recording shown there. */
function marksFrom(
  locators: readonly Locator[],
  placed: readonly { event: Event; run: SourceRun }[],
  rate: FrameRate,
  notes: Notes,
): ImportedMark[] {
  // On the record side events follow each other; counted from the first, so that midnight is no border.
  const origin = placed[0]?.event.times[2] ?? 0;
  const inOrder = placed
    .map((held) => ({ ...held, from: framesBetween(origin, held.event.times[2], rate) }))
    .toSorted((a, b) => a.from - b.from);
  return locators.flatMap(({ frame, title, colour }): ImportedMark[] => {
    const held = lastUpTo(inOrder, framesBetween(origin, frame, rate), ({ from }) => from);
    const frames = held && length(held.event.times[2], frame, held.event.counted);
    if (
      !held ||
      frames === undefined ||
      frames < 0 ||
      frames >= length(held.event.times[2], held.event.times[3], held.event.counted)
    ) {
      notes.add(`the locator "${brief(title)}" lies in no event, so it was left out`);
      return [];
    }
    const into = frames * rate.ticksPerFrame;
    return [{ kind: /^CYAN$/i.test(colour) ? 'step' : 'chapter', title, at: ticks(held.run.at.start + into) }];
  });
}
