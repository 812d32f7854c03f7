import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import { check, programmeFindings } from '../../core/check/index.ts';
import { type Diagnostic, encodePath, type Recording, type Shop } from '../../core/model/index.ts';
import { CONTENT_FILES, escapeMarkup as escaped, plural } from '../../core/read/index.ts';
import { isoDay, printClockTime, runtime, TICKS_PER_SECOND, toSeconds } from '../../core/time/index.ts';
import type { LoadedShop } from '../files/index.ts';
import { findSpeech } from '../media/kept-analysis.ts';
import { readManifest, renderedFolder } from '../media/rendered.ts';
import type { Room } from './room.ts';

/** The list of recordings: a still of each, how long it is, what is kept, cued and open, and when it was changed. */
export async function recordingRows(room: Room, { shop, diagnostics, texts }: LoadedShop): Promise<string> {
  const speech = await findSpeech(room.content, shop.recordings);
  const found = check(shop, diagnostics, { today: isoDay(room.now()), speech });
  const rows = await Promise.all(shop.recordings.map((recording) => rowOf(room, shop, recording, found)));
  const unread = recordingIds(texts)
    .filter((id) => shop.recordings.every((one) => one.id !== id))
    .map((id) => brokenRow(room, id));
  return rows.length + unread.length === 0
    ? '<p class="none">No recording yet. Choose or drop what a camera wrote to make the first.</p>'
    : `<ul class="recordings">${[...rows, ...unread].join('')}</ul>`;
}

/** Ids of all recordings that have a file, also of those that cannot be read. */
export function recordingIds(texts: ReadonlyMap<string, string>): string[] {
  return [...texts.keys()].flatMap((file) => CONTENT_FILES.recording.exec(file)?.[1] ?? []);
}

async function rowOf(room: Room, shop: Shop, recording: Recording, found: readonly Diagnostic[]): Promise<string> {
  const { id, title, length, edit } = recording;
  const lessons = shop.lessons.filter((lesson) => lesson.recording === id);
  const passages = lessons.flatMap(({ chapters }) => chapters.flatMap((chapter) => [chapter, ...chapter.steps]));
  const cues = passages.flatMap(({ cue }) => (cue ? [cue.at] : []));
  const open = programmeFindings(shop, recording, found);
  const errors = open.filter(({ severity }) => severity === 'error').length;
  const kept = length === undefined ? 0 : Math.min(length, runtime(edit));
  const changed = await lastChange(room, [
    `recordings/${id}.yaml`,
    ...lessons.map((lesson) => `lessons/${lesson.id}.mdx`),
  ]);
  const facts: readonly (readonly [label: string, value: string, mark?: string | undefined])[] = [
    ['Length', length === undefined ? 'not known' : wholeSeconds(length)],
    ...(length === undefined
      ? []
      : [['Kept', `${Math.round((100 * kept) / length)} %, ${wholeSeconds(kept)}`] as const]),
    ['Cues set', passages.length === 0 ? 'no lesson yet' : `${cues.length} of ${passages.length}`],
    [
      'Findings',
      open.length === 0 ? 'none' : `${open.length}${errors > 0 ? `, ${plural(errors, 'error')}` : ''}`,
      errors > 0 ? 'error' : open.length > 0 ? 'open' : undefined,
    ],
    ['Last change', changed],
  ];
  return `<li>${await stillOf(room, recording)}
<h2><a href="${room.base}cutting-room/${id}/">${escaped(title)}</a></h2>
${keptStrip(recording, cues)}
<dl>${facts
    .map(
      ([label, value, mark]) =>
        `<div${mark ? ` class="${mark}"` : ''}><dt>${label}</dt> <dd>${escaped(value)}</dd></div>`,
    )
    .join(' ')}</dl></li>`;
}

function brokenRow({ base }: Room, id: string): string {
  return `<li><span class="still"></span>
<h2><a href="${base}cutting-room/${id}/">${escaped(id)}</a></h2>
<p>This recording cannot be read: liftside check says why.</p></li>`;
}

/** So wide is the drawing of a recording, in units of its own; it is drawn as wide as its card. */
const WIDE = 1000;

/** The recording as a rule lying on its side: what is kept filled, cues as graduations. Only to be seen. */
function keptStrip({ length, edit }: Recording, cues: readonly number[]): string {
  if (length === undefined || length === 0) return '';
  const at = (ticks: number) => ((WIDE * Math.min(ticks, length)) / length).toFixed(1);
  const kept = edit
    .filter(({ start }) => start < length)
    .map(({ start, end }) => `<rect x="${at(start)}" y="8" width="${at(Math.min(end, length) - start)}" height="24"/>`);
  const marks = cues.map((cue) => `M${at(cue)} 0v14`);
  return `<svg class="kept" viewBox="0 0 ${WIDE} 32" preserveAspectRatio="none" aria-hidden="true">${kept.join('')}<path d="${marks.join('')}" vector-effect="non-scaling-stroke"/></svg>`;
}

function wholeSeconds(length: number): string {
  return printClockTime(Math.round(length / TICKS_PER_SECOND) * TICKS_PER_SECOND);
}

async function lastChange({ content }: Room, files: readonly string[]): Promise<string> {
  const times = await Promise.all(
    files.map((file) =>
      stat(join(content, file)).then(
        ({ mtimeMs }) => mtimeMs,
        () => 0,
      ),
    ),
  );
  const last = new Date(Math.max(...times));
  const local = new Date(last.getTime() - last.getTimezoneOffset() * 60_000).toISOString();
  return `${local.slice(0, 10)} ${local.slice(11, 16)}`;
}

/** The poster of the finished programme; else the picture of the camera file where the first kept range is under way. */
async function stillOf(room: Room, { id, files, edit }: Recording): Promise<string> {
  const api = `${room.base}cutting-room/api/`;
  const poster = (await readManifest(renderedFolder(room.content, id)))?.files.poster?.name;
  if (poster !== undefined) {
    const src = `${api}programme-file/plain/${id}/${encodeURIComponent(poster)}?token=${room.token}`;
    return `<img class="still" src="${src}" alt="" loading="lazy">`;
  }
  const [first] = edit;
  const at = first ? first.start + Math.min(first.end - first.start, 10 * TICKS_PER_SECOND) / 2 : 0;
  const shot = files.find(({ facts, span }) => facts.state === 'media' && span.start <= at && at < span.end);
  if (!shot) return '<span class="still"></span>';
  const seconds = toSeconds(at - shot.span.start).toFixed(1);
  const src = `${api}media/${encodePath(shot.file)}?token=${room.token}#t=${seconds}`;
  return `<video class="still" src="${src}" muted playsinline preload="metadata" tabindex="-1" aria-hidden="true"></video>`;
}
