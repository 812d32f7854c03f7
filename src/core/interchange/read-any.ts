import type { Lesson, Recording } from '../model/index.ts';
import { fail, type Parsed } from '../time/index.ts';
import type { Imported } from './imported.ts';
import { readPaperEdit } from './paper-edit/read-paper-edit.ts';
import { PAPER_EDIT } from './paper-edit/write-paper-edit.ts';
import { type FileClock, readChapterList, readFfmetadata, readMkvChapters, readVttChapters } from './read-chapters.ts';
import { readEdl } from './read-edl.ts';
import { readOtio } from './read-otio.ts';
import { readCaptionTranscript, readJsonTranscript } from './read-transcript.ts';

/** What a file is to be read as. */
export interface ImportFormat {
  /** As written after `--as`. */
  readonly id: string;
  readonly title: string;
  /** Which clock its times are usually on; nothing where the format settles it. */
  readonly clock?: 'recording' | 'programme';
  /** True for a file that looks like one. */
  fits(file: string, text: string): boolean;
  /** @param lessons that its chapters and steps may go into */
  read(
    file: string,
    text: string,
    recording: Recording,
    clock: FileClock,
    lessons?: readonly Lesson[],
  ): Parsed<Imported>;
}

const isVtt = (text: string) => /^\uFEFF?WEBVTT/.test(text);
/** Chapters are named so in the first line or the file's name; else few and long: a minute or more for each on the average. */
const seemsChapters = (file: string, text: string) =>
  !/^\uFEFF?WEBVTT[^\n]*captions/i.test(text) &&
  (/chapter|metadata/i.test(file.split('/').at(-1) ?? '') ||
    /^\uFEFF?WEBVTT[^\n]*(chapter|metadata)/i.test(text) ||
    sparse(text));

/** A part of a paper edit, without its head: it has its signs, and arrows of captions and quotes of JSON are none. */
const seemsMarked = (text: string) =>
  !text.includes('-->') &&
  (/\[-[^[\]"]*-\]/.test(text) || /^\s*\[(?:cut|keep)\]\s*\d/im.test(text) || /^(?:\d[\d:;.]*\s+)?step:/im.test(text));

/** Every format that can come in, the first that fits a file first. One file, one test, one row. */
export const IMPORT_FORMATS: readonly ImportFormat[] = [
  {
    id: 'paper-edit',
    title: 'paper edit: words marked by hand',
    fits: (_file, text) => text.slice(0, 4000).includes(PAPER_EDIT) || seemsMarked(text.slice(0, 20_000)),
    read: (_file, text, recording, _clock, lessons) => readPaperEdit(text, recording, lessons),
  },
  {
    id: 'otio',
    title: 'OpenTimelineIO JSON: edit list and marks',
    fits: (file, text) => /\.otio$/i.test(file) || /"OTIO_SCHEMA"/.test(text.slice(0, 4000)),
    read: (_file, text, recording) => readOtio(text, recording),
  },
  {
    id: 'edl',
    title: 'EDL: edit list and marks',
    fits: (file, text) => /\.edl$/i.test(file) || /^(TITLE|FCM):/m.test(text.slice(0, 4000)),
    read: (_file, text, recording) => readEdl(text, recording),
  },
  {
    id: 'mkv-chapters',
    title: 'Matroska chapters, XML',
    clock: 'programme',
    fits: (_file, text) => /<Chapters[\s>]/.test(text.slice(0, 4000)),
    read: (_file, text, _recording, clock) => readMkvChapters(text, clock),
  },
  {
    id: 'ffmetadata',
    title: 'FFMETADATA1 chapters',
    clock: 'programme',
    fits: (_file, text) => /^\uFEFF?;FFMETADATA/.test(text),
    read: (_file, text, _recording, clock) => readFfmetadata(text, clock),
  },
  {
    id: 'vtt-chapters',
    title: 'WebVTT chapters or metadata',
    clock: 'programme',
    fits: (file, text) => isVtt(text) && seemsChapters(file, text),
    read: (file, text, _recording, clock) => readVttChapters(file, text, clock),
  },
  {
    id: 'captions',
    title: 'transcript as WebVTT or SRT',
    clock: 'recording',
    fits: (file, text) =>
      isVtt(text) || /\.(srt|vtt)$/i.test(file) || /^\s*\d+:\d\d:\d\d[,.]\d{1,3}\s*-->/m.test(text.slice(0, 4000)),
    read: (file, text, _recording, clock) => readCaptionTranscript(file, text, clock),
  },
  {
    id: 'words',
    title: 'transcript as JSON with word times',
    clock: 'recording',
    fits: (file, text) => /\.json$/i.test(file) || /^\s*[[{]/.test(text.slice(0, 100)),
    read: (_file, text, _recording, clock) => readJsonTranscript(text, clock),
  },
  {
    id: 'chapter-list',
    title: 'list with one "0:00 Title" a line',
    clock: 'programme',
    fits: (_file, text) => /^\s*[([]?(?:\d+:)?\d{1,3}:\d\d\b/m.test(text.slice(0, 4000)),
    read: (_file, text, _recording, clock) => readChapterList(text, clock),
  },
];

/** The format a file seems to be in. */
export function findImportFormat(file: string, text: string): Parsed<ImportFormat> {
  const found = IMPORT_FORMATS.find((format) => format.fits(file, text));
  return found
    ? { ok: true, value: found }
    : fail(
        `what ${file} is cannot be told from its text`,
        `say so with --as ${IMPORT_FORMATS.map(({ id }) => id).join(', ')}`,
      );
}

function sparse(text: string): boolean {
  const times = [...text.slice(0, 200_000).matchAll(/^(?:(\d+):)?(\d\d):(\d\d)\.\d{3}[ \t]+-->/gm)];
  const seconds = (match: RegExpMatchArray | undefined) =>
    (Number(match?.[1] ?? 0) * 60 + Number(match?.[2] ?? 0)) * 60 + Number(match?.[3] ?? 0);
  return times.length > 1 && (seconds(times.at(-1)) - seconds(times[0])) / (times.length - 1) > 60;
}
