import type { Recording } from '../model/index.ts';
import {
  editList,
  type FrameRate,
  fail,
  lastUpTo,
  nearestRate,
  ok,
  type Parsed,
  TICKS_PER_SECOND,
  ticks,
} from '../time/index.ts';
import { fileLabel } from './cut-events.ts';
import { brief, type Imported, type ImportedMark, MOST_EVENTS, Notes } from './imported.ts';
import { parseJsonText } from './json-text.ts';
import { editOf, findFile, runOf, type SourceRun } from './source-runs.ts';

type Json = Readonly<Record<string, unknown>>;

/**
 * OpenTimelineIO JSON as the edit list of a recording, and its markers as marks.
 *
 * The first picture track decides. Gaps close up, transitions become cuts, and what an edit list has nothing for
 * (nested timelines, effects, changes of speed, further tracks, sound cut apart) is listed.
 * Reads Clip.1 and Clip.2, Marker.1 to Marker.3.
 */
export function readOtio(text: string, recording: Recording): Parsed<Imported> {
  const { rate } = recording;
  if (!rate) return fail(`the frame rate of ${recording.id} is not known`, 'write rate: in the recording file');
  const read = parseJsonText(text, 'a timeline');
  if (!read.ok) return read;
  const timeline = object(read.value);
  if (!timeline) return fail('the file holds no timeline', 'export it as OpenTimelineIO JSON (.otio)');
  const notes = new Notes();
  const stack =
    schema(timeline) === 'Timeline' ? object(timeline.tracks) : schema(timeline) === 'Stack' ? timeline : undefined;
  if (!stack)
    return fail(
      `the file holds no timeline (${brief(String(timeline.OTIO_SCHEMA ?? 'no OTIO_SCHEMA'))})`,
      'export one timeline, not a collection of them',
    );
  const tracks = list(stack.children);
  const pictures = tracks.filter((track) => track.kind === 'Video');
  const track = pictures[0] ?? tracks[0];
  if (!track || schema(track) !== 'Track')
    return fail('the timeline has no track', 'export the timeline with its picture track');
  for (const other of pictures.slice(1))
    if (list(other.children).length > 0)
      notes.add(`the picture track "${brief(name(other))}" was left out: one track can be carried`);
  const walked = walk(track, recording, rate, notes);
  for (const other of tracks.filter((one) => one.kind === 'Audio'))
    tellSound(walked.runs, walk(other, recording, rate, new Notes()).runs, name(other), notes);
  const marks = [
    ...walked.marks,
    ...[...list(track.markers), ...list(stack.markers)].flatMap((marker) =>
      onTrack(marker, walked.placed, rate, notes),
    ),
  ].toSorted((a, b) => a.at - b.at);
  if (walked.runs.length === 0 && marks.length === 0)
    return fail(
      'nothing of the timeline is in this recording',
      notes.all()[0] ?? 'take the timeline of this recording',
    );
  return ok({
    ...editOf(walked.runs, notes),
    ...(marks.length > 0 ? { marks } : {}),
    precision: rate.ticksPerFrame,
    notes: notes.all(),
  });
}

interface Walked {
  readonly runs: SourceRun[];
  readonly marks: ImportedMark[];
  /** Each run with the frame of the track it begins at. */
  readonly placed: { readonly run: SourceRun; readonly from: number; readonly frames: number }[];
}

function walk(track: Json, recording: Recording, rate: FrameRate, notes: Notes): Walked {
  const walked: Walked = { runs: [], marks: [], placed: [] };
  let from = 0;
  if (object(track.source_range)) notes.add(`the trim of the track "${brief(name(track))}" was not carried`);
  const children = list(track.children);
  if (children.length > MOST_EVENTS) notes.add(`only the first ${MOST_EVENTS} of ${children.length} clips were read`);
  for (const child of children.slice(0, MOST_EVENTS)) {
    const kind = schema(child);
    const frames = framesIn(object(child.source_range)?.duration, rate) ?? 0;
    if (kind === 'Clip') {
      const taken = clip(child, recording, rate, notes);
      if (taken && child.enabled !== false) {
        walked.runs.push(taken.run);
        walked.placed.push({ run: taken.run, from, frames: taken.frames });
        walked.marks.push(...taken.marks);
      } else if (taken) notes.add(`"${brief(name(child))}" is switched off, so it was left out`);
      from += taken?.frames ?? frames;
    } else if (kind === 'Gap') {
      if (frames > 0) notes.add('a gap closes up: an edit list shows one range after the other');
      from += frames;
    } else if (kind === 'Transition') notes.add(`the transition "${brief(name(child))}" became a cut`);
    else {
      notes.add(`"${brief(name(child))}" is nested (${brief(String(child.OTIO_SCHEMA))}) and was left out`);
      from += frames;
    }
  }
  return walked;
}

function clip(
  child: Json,
  recording: Recording,
  rate: FrameRate,
  notes: Notes,
): { run: SourceRun; frames: number; marks: ImportedMark[] } | undefined {
  const reference = mediaOf(child);
  const available = object(reference?.available_range);
  const source = object(child.source_range) ?? available;
  const start = framesIn(source?.start_time, rate);
  const frames = framesIn(source?.duration, rate);
  if (start === undefined || frames === undefined) {
    notes.add(`"${brief(name(child))}" says no range, so it was left out`);
    return undefined;
  }
  for (const effect of list(child.effects))
    notes.add(
      `the effect ${brief(String(effect.OTIO_SCHEMA ?? 'unnamed'))} on "${brief(name(child))}" was not carried`,
    );
  const file = findFile(
    recording,
    [String(reference?.target_url ?? ''), name(child), String(reference?.name ?? '')],
    notes,
  );
  if (!file) return undefined;
  const own = framesIn(available?.start_time, rate) ?? fileLabel(recording, file, rate);
  // Some programs count a source from the file's label, some from its first frame.
  const origin = start >= own ? own : 0;
  const run = runOf(file, rate, start - origin, frames, notes, name(child));
  if (!run) return undefined;
  const marks = list(child.markers).flatMap((marker) => {
    const range = object(marker.marked_range) ?? object(marker.range);
    const at = framesIn(range?.start_time, rate);
    if (at === undefined || at < origin) return leaveOut(notes, marker);
    const moment = file.span.start + (at - origin) * rate.ticksPerFrame;
    return mark(marker, moment, framesIn(range?.duration, rate) ?? 0, rate) ?? leaveOut(notes, marker);
  });
  return { run, frames, marks };
}

/** A marker of the track or the whole, whose time is the programme's. */
function onTrack(marker: Json, placed: Walked['placed'], rate: FrameRate, notes: Notes): ImportedMark[] {
  const range = object(marker.marked_range) ?? object(marker.range);
  const at = framesIn(range?.start_time, rate);
  const held = at === undefined ? undefined : lastUpTo(placed, at, ({ from }) => from);
  if (!held || at === undefined || at >= held.from + held.frames) return leaveOut(notes, marker);
  const moment = held.run.at.start + (at - held.from) * rate.ticksPerFrame;
  return mark(marker, moment, framesIn(range?.duration, rate) ?? 0, rate) ?? leaveOut(notes, marker);
}

function mark(marker: Json, at: number, frames: number, rate: FrameRate): ImportedMark[] | undefined {
  const until = at + frames * rate.ticksPerFrame;
  if (!Number.isSafeInteger(until) || at < 0) return undefined;
  const own = object(object(marker.metadata)?.liftside);
  const kind = own?.kind === 'step' ? 'step' : 'chapter';
  return [
    {
      kind,
      title: name(marker) === 'unnamed' ? 'Untitled' : name(marker),
      ...(typeof own?.id === 'string' && { id: own.id }),
      at: ticks(at),
      ...(frames > 0 ? { until: ticks(until) } : {}),
    },
  ];
}

function leaveOut(notes: Notes, marker: Json): [] {
  notes.add(`the marker "${brief(name(marker))}" lies in nothing that is shown, so it was left out`);
  return [];
}

function tellSound(picture: readonly SourceRun[], sound: readonly SourceRun[], track: string, notes: Notes): void {
  // How far the picture is kept without a break, by where each such stretch begins.
  const whole = editList(picture.map(({ at }) => at));
  const apart = sound.some(({ at }) => (lastUpTo(whole, at.start, (kept) => kept.start)?.end ?? 0) < at.end);
  if (apart)
    notes.add(`the sound track "${brief(track)}" is cut otherwise than the picture: sound follows the picture here`);
}

function mediaOf(child: Json): Json | undefined {
  const references = object(child.media_references);
  if (!references) return object(child.media_reference);
  return (
    object(references[String(child.active_media_reference_key ?? 'DEFAULT_MEDIA')]) ??
    object(Object.values(references)[0])
  );
}

/** A RationalTime in whole frames of the recording's rate, the nearest; nothing when it is none. */
function framesIn(value: unknown, rate: FrameRate): number | undefined {
  const time = object(value);
  if (typeof time?.value !== 'number' || typeof time.rate !== 'number' || !(time.rate > 0)) return undefined;
  const known = nearestRate(time.rate);
  const moment = known ? time.value * known.ticksPerFrame : (time.value / time.rate) * TICKS_PER_SECOND;
  const frames = Math.round(moment / rate.ticksPerFrame);
  return Number.isSafeInteger(frames) ? frames : undefined;
}

function schema(item: Json): string {
  return String(item.OTIO_SCHEMA ?? '').split('.')[0] ?? '';
}

function name(item: Json): string {
  return typeof item.name === 'string' && item.name.trim() !== '' ? item.name.trim() : 'unnamed';
}

function object(value: unknown): Json | undefined {
  return typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Json) : undefined;
}

function list(value: unknown): Json[] {
  const entries: readonly unknown[] = Array.isArray(value) ? value : [];
  return entries.map(object).filter((entry) => entry !== undefined);
}
