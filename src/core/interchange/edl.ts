import type { CameraFile, Recording } from '../model/index.ts';
import type { LessonTimes } from '../programme/index.ts';
import { plural } from '../read/index.ts';
import { fail, ok, type Parsed, parseTimecode, printTimecode } from '../time/index.ts';
import { cutEvents, cutNotes, fileLabel, marksOf, placeMarks, withoutRate } from './cut-events.ts';
import type { Exported } from './format.ts';

/**
 * The edit list as an EDL: one event for each run of a camera file, sound with picture, straight cuts.
 *
 * Out points are exclusive, the record side runs on from 01:00:00:00 without gaps, reels are named after camera files,
 * and chapters and steps come as locator comments. Source: SMPTE 258M conventions, by the columns that published
 * readers agree on; comments are common practice.
 */
export function writeEdl(recording: Recording, lessons: readonly LessonTimes[]): Parsed<Exported> {
  const { rate } = recording;
  if (!rate) return withoutRate(recording);
  const { events, snapped } = cutEvents(recording, rate);
  if (events.length === 0)
    return fail(`nothing of ${recording.id} is kept in a camera file`, 'name its camera files and keep a range');
  const { placed, cut } = placeMarks(marksOf(lessons), events);
  const reels = reelNames(recording.files);
  const width = String(events.length).length > 3 ? String(events.length).length : 3;
  const start = parseTimecode('01:00:00:00', rate);
  let record = start.ok ? start.value : 0;
  const lines = events.flatMap((event, i) => {
    const label = fileLabel(recording, event.file, rate);
    const times = [label + event.first, label + event.end, record, record + event.end - event.first];
    const marks = placed
      .filter((one) => one.event === event)
      .map(({ mark }) => {
        const frame = record + Math.floor((mark.at - event.at.start) / rate.ticksPerFrame);
        const colour = mark.kind === 'chapter' ? 'GREEN  ' : 'CYAN   ';
        return `* LOC: ${printTimecode(frame, rate)} ${colour} ${oneLine(mark.title)}`;
      });
    record += event.end - event.first;
    const number = String(i + 1).padStart(width, '0');
    const reel = (reels.get(event.file.file) ?? 'AX').padEnd(8);
    return [
      `${number}  ${reel} AA/V  C        ${times.map((frame) => printTimecode(frame, rate)).join(' ')}`,
      `* FROM CLIP NAME: ${oneLine(event.file.file)}`,
      ...marks,
    ];
  });
  const text = [
    `TITLE: ${oneLine(recording.title)}`,
    `FCM: ${rate.dropped > 0 ? 'DROP FRAME' : 'NON-DROP FRAME'}`,
    '',
    ...lines,
    '',
  ].join('\n');
  const notes = [
    ...cutNotes(recording, snapped, cut),
    ...(events.length > 999 ? [`${plural(events.length, 'event')}: older programs read no more than 999`] : []),
    ...(rate.nominal > 30
      ? [`labels of ${rate.name} frames a second go past 29; older programs read no more than 30 a second`]
      : []),
  ];
  return ok({ text, notes });
}

/** A reel for each camera file: eight capital letters and digits at most, no two alike. */
export function reelNames(files: readonly Pick<CameraFile, 'file'>[]): ReadonlyMap<string, string> {
  const names = new Map<string, string>();
  const taken = new Set<string>();
  for (const { file } of files) {
    if (names.has(file)) continue;
    const base = (file.split('/').at(-1) ?? '').replace(/\.[^.]*$/, '');
    const plain =
      base
        .normalize('NFKD')
        .toUpperCase()
        .replaceAll(/[^A-Z0-9]/g, '') || 'REEL';
    let name = plain.length > 8 ? plain.slice(0, 4) + plain.slice(-4) : plain;
    for (let i = 2; taken.has(name); i++) name = `${plain.slice(0, 8 - String(i).length)}${i}`;
    taken.add(name);
    names.set(file, name);
  }
  return names;
}

function oneLine(text: string): string {
  return text.replaceAll(/\s+/g, ' ').trim();
}
