import type { Recording, Shop, ShopClass } from '../model/index.ts';
import { type LessonTimes, retimeCaptions } from '../programme/index.ts';
import { plural } from '../read/index.ts';
import { fail, ok, type Parsed } from '../time/index.ts';
import { writeChapterList } from './chapter-list.ts';
import { writeEdl } from './edl.ts';
import { writeFfmetadata } from './ffmetadata.ts';
import type { Exported } from './format.ts';
import { writeIcs } from './ics.ts';
import { writeJsonLd } from './jsonld.ts';
import { writeMkvChapters } from './mkv-chapters.ts';
import { writeOtio } from './otio.ts';
import { writePaperEdit } from './paper-edit/write-paper-edit.ts';
import { writeSrt } from './srt.ts';
import { writeVtt } from './vtt.ts';
import { writeVttChapters } from './vtt-chapters.ts';
import { writeVttMetadata } from './vtt-metadata.ts';

interface Row {
  /** As written after `--to`. */
  readonly id: string;
  readonly title: string;
  readonly extension: string;
}

/** A format for a recording, with the lessons that use it. */
export interface RecordingFormat extends Row {
  readonly of: 'recording';
  write(recording: Recording, lessons: readonly LessonTimes[], shop: Shop): Parsed<Exported>;
}

export interface LessonFormat extends Row {
  readonly of: 'lesson';
  write(times: LessonTimes, shop: Shop): Parsed<Exported>;
}

export interface ClassFormat extends Row {
  readonly of: 'class';
  write(shopClass: ShopClass, shop: Shop, stamp: Date): Parsed<Exported>;
}

export type Format = RecordingFormat | LessonFormat | ClassFormat;

const captionFormat = (
  id: string,
  title: string,
  write: (retimed: ReturnType<typeof retimeCaptions>, blocks: readonly string[]) => Exported,
): RecordingFormat => ({
  id,
  title,
  extension: id,
  of: 'recording',
  write({ captions, edit, id: name }) {
    if (!captions || captions.cues.length === 0)
      return fail(`${name} has no captions`, 'name a WebVTT or SRT file under captions:, or import a transcript');
    const retimed = retimeCaptions(captions.cues, edit);
    const { text, notes } = write(retimed, captions.blocks);
    const cut =
      retimed.cut.length > 0
        ? [`${plural(retimed.cut.length, 'caption')} had a cut through them; liftside check tells which`]
        : [];
    return ok({ text, notes: [...notes, ...cut] });
  },
});

/** Every format that is text in, text out; those that need a browser are in the shell. One file, one test, one row. */
export const FORMATS: readonly Format[] = [
  captionFormat('vtt', 'WebVTT captions', ({ captions }, blocks) => ({
    text: writeVtt(captions, blocks, 'captions'),
    notes: [],
  })),
  captionFormat('srt', 'SubRip captions', ({ captions }) => writeSrt(captions)),
  {
    id: 'vtt-chapters',
    title: 'WebVTT chapters',
    extension: 'vtt',
    of: 'lesson',
    write: (times) => ok(writeVttChapters(times)),
  },
  {
    id: 'vtt-metadata',
    title: 'WebVTT metadata, JSON in each cue',
    extension: 'vtt',
    of: 'lesson',
    write: (times) => ok(writeVttMetadata(times)),
  },
  {
    id: 'edl',
    title: 'edit decision list',
    extension: 'edl',
    of: 'recording',
    write: (recording, lessons) => writeEdl(recording, lessons),
  },
  {
    id: 'otio',
    title: 'OpenTimelineIO JSON',
    extension: 'otio',
    of: 'recording',
    write: (recording, lessons) => writeOtio(recording, lessons),
  },
  {
    id: 'paper-edit',
    title: 'paper edit: the words with their times, to be marked by hand',
    extension: 'txt',
    of: 'recording',
    write: (recording, lessons) => writePaperEdit(recording, lessons),
  },
  {
    id: 'ffmetadata',
    title: 'FFMETADATA1 chapters',
    extension: 'txt',
    of: 'lesson',
    write: (times) => ok(writeFfmetadata(times)),
  },
  {
    id: 'mkv-chapters',
    title: 'Matroska chapters, XML',
    extension: 'xml',
    of: 'lesson',
    write: (times, { info }) => ok(writeMkvChapters(times, info.language)),
  },
  {
    id: 'chapter-list',
    title: "chapter list for a video host's description",
    extension: 'txt',
    of: 'lesson',
    write: (times) => ok(writeChapterList(times)),
  },
  {
    id: 'jsonld',
    title: 'schema.org data',
    extension: 'jsonld',
    of: 'lesson',
    write: (times, shop) => ok(writeJsonLd(times, shop)),
  },
  { id: 'ics', title: 'iCalendar event', extension: 'ics', of: 'class', write: writeIcs },
];
