import { encodePath, type Recording } from '../model/index.ts';
import type { LessonTimes } from '../programme/index.ts';
import { type FrameRate, ok, type Parsed, parseTimecode } from '../time/index.ts';
import {
  type CutEvent,
  cutEvents,
  cutNotes,
  fileLabel,
  type Mark,
  marksOf,
  placeMarks,
  withoutRate,
} from './cut-events.ts';
import type { Exported } from './format.ts';

/**
 * The programme as OpenTimelineIO JSON: one picture and one sound track of clips with their media, a gap where the
 * sound of a camera file ends before its picture, and markers for chapters and steps.
 *
 * Source: OpenTimelineIO's published schema, release 0.18.1: Timeline.1, Stack.1, Track.1, Clip.2, Gap.1, Marker.2,
 * ExternalReference.1; times count frames from the label of the file's first frame, and ranges have a duration.
 */
export function writeOtio(recording: Recording, lessons: readonly LessonTimes[]): Parsed<Exported> {
  const { rate } = recording;
  if (!rate) return withoutRate(recording);
  const { events, snapped } = cutEvents(recording, rate);
  const { placed, cut } = placeMarks(marksOf(lessons), events);
  const start = parseTimecode('01:00:00:00', rate);
  const picture = events.map((event) =>
    clip(
      recording,
      event,
      rate,
      placed.filter((one) => one.event === event).map(({ mark }) => mark),
    ),
  );
  const timeline = {
    OTIO_SCHEMA: 'Timeline.1',
    name: recording.title,
    metadata: { liftside: { recording: recording.id } },
    global_start_time: time(start.ok ? start.value : 0, rate),
    tracks: {
      OTIO_SCHEMA: 'Stack.1',
      name: 'tracks',
      metadata: {},
      source_range: null,
      effects: [],
      markers: [],
      children: [
        track('Video', picture),
        track(
          'Audio',
          events.flatMap((event) => sound(recording, event, rate)),
        ),
      ],
    },
  };
  return ok({ text: `${JSON.stringify(timeline, null, 2)}\n`, notes: cutNotes(recording, snapped, cut) });
}

function track(kind: 'Video' | 'Audio', children: readonly object[]) {
  return {
    OTIO_SCHEMA: 'Track.1',
    name: kind === 'Video' ? 'picture' : 'sound',
    kind,
    metadata: {},
    source_range: null,
    effects: [],
    markers: [],
    children,
  };
}

/** Frames per second as the format has them: a double, exact enough to name the rate. */
function time(value: number, rate: FrameRate) {
  return { OTIO_SCHEMA: 'RationalTime.1', rate: rate.numerator / rate.denominator, value };
}

function span(start: number, frames: number, rate: FrameRate) {
  return { OTIO_SCHEMA: 'TimeRange.1', start_time: time(start, rate), duration: time(frames, rate) };
}

function clip(recording: Recording, event: CutEvent, rate: FrameRate, marks: readonly Mark[], until = event.end) {
  const { file, first } = event;
  const label = fileLabel(recording, file, rate);
  const frames = Math.ceil((file.span.end - file.span.start) / rate.ticksPerFrame);
  return {
    OTIO_SCHEMA: 'Clip.2',
    name: file.file.split('/').at(-1) ?? file.file,
    metadata: {},
    source_range: span(label + first, until - first, rate),
    effects: [],
    enabled: true,
    markers: marks.map((mark) => marker(event, label, mark, rate)),
    active_media_reference_key: 'DEFAULT_MEDIA',
    media_references: {
      DEFAULT_MEDIA: {
        OTIO_SCHEMA: 'ExternalReference.1',
        name: '',
        metadata: {},
        available_range: span(label, frames, rate),
        available_image_bounds: null,
        target_url: encodePath(file.file),
      },
    },
  };
}

function marker({ at, first }: CutEvent, label: number, { kind, id, title, at: from, until }: Mark, rate: FrameRate) {
  const start = first + Math.floor((from - at.start) / rate.ticksPerFrame);
  const end = until === undefined ? start : first + Math.floor((until - at.start) / rate.ticksPerFrame);
  return {
    OTIO_SCHEMA: 'Marker.2',
    name: title,
    metadata: { liftside: { kind, id } },
    color: kind === 'chapter' ? 'GREEN' : 'CYAN',
    marked_range: span(label + start, end - start, rate),
  };
}

/** The clip of an event as far as its file has sound, and a gap for the rest. */
function sound(recording: Recording, event: CutEvent, rate: FrameRate): object[] {
  const { facts } = event.file;
  const length = facts.state === 'media' ? facts.media.soundDuration : undefined;
  const heard = length === undefined ? event.end : Math.min(event.end, Math.ceil(length / rate.ticksPerFrame));
  const silent = event.end - Math.max(heard, event.first);
  return [
    ...(heard > event.first ? [clip(recording, event, rate, [], heard)] : []),
    ...(silent > 0
      ? [
          {
            OTIO_SCHEMA: 'Gap.1',
            name: '',
            metadata: {},
            source_range: span(0, silent, rate),
            effects: [],
            markers: [],
          },
        ]
      : []),
  ];
}
