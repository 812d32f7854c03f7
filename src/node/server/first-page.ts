import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import { check, programmeFindings } from '../../core/check/index.ts';
import { type Diagnostic, encodePath, type Recording, type Shop } from '../../core/model/index.ts';
import { escapeMarkup as escaped, plural } from '../../core/read/index.ts';
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
  const unread = [...texts.keys()].flatMap((file) => {
    const id = /^recordings\/([^/]+)\.yaml$/.exec(file)?.[1];
    return id === undefined || shop.recordings.some((one) => one.id === id) ? [] : [brokenRow(room, id)];
  });
  return rows.length + unread.length === 0
    ? '<p class="none">No recording yet. Take in the files of a camera below.</p>'
    : `<ul class="recordings">${[...rows, ...unread].join('')}</ul>`;
}

async function rowOf(room: Room, shop: Shop, recording: Recording, found: readonly Diagnostic[]): Promise<string> {
  const { id, title, length, edit } = recording;
  const lessons = shop.lessons.filter((lesson) => lesson.recording === id);
  const passages = lessons.flatMap(({ chapters }) => chapters.flatMap((chapter) => [chapter, ...chapter.steps]));
  const cued = passages.filter(({ cue }) => cue).length;
  const open = programmeFindings(shop, recording, found);
  const errors = open.filter(({ severity }) => severity === 'error').length;
  const facts = [
    length === undefined ? 'length not known' : wholeSeconds(length),
    length === undefined ? '' : `${Math.round((100 * Math.min(length, runtime(edit))) / length)} % kept`,
    passages.length === 0 ? 'no lesson yet' : `${cued} of ${plural(passages.length, 'cue')} set`,
    open.length === 0
      ? 'no findings'
      : `${plural(open.length, 'finding')}${errors > 0 ? `, ${plural(errors, 'error')}` : ''}`,
    `changed ${await lastChange(room, [`recordings/${id}.yaml`, ...lessons.map((lesson) => `lessons/${lesson.id}.mdx`)])}`,
  ].filter((words) => words !== '');
  return `<li><a href="${room.base}cutting-room/${id}/">${await stillOf(room, recording)}
<span class="title">${escaped(title)}</span>
<span class="facts">${facts.map((words) => `<span>${escaped(words)}</span>`).join(' ')}</span></a></li>`;
}

function brokenRow({ base }: Room, id: string): string {
  return `<li><a href="${base}cutting-room/${id}/"><span class="still"></span>
<span class="title">${escaped(id)}</span><span class="facts"><span>cannot be read: liftside check says why</span></span></a></li>`;
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
