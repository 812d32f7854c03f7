export { reelNames, writeEdl } from './edl.ts';
export { eventJsonLd } from './event-jsonld.ts';
export { writeFfmetadata } from './ffmetadata.ts';
export type { Exported } from './format.ts';
export { FORMATS, type Format } from './formats.ts';
export { writeIcs } from './ics.ts';

export { lessonJsonLd } from './jsonld.ts';
export { clockOf } from './merge-captions.ts';
export { type PlannedText, planImport } from './plan-import.ts';
export { findImportFormat, IMPORT_FORMATS } from './read-any.ts';
export type { FileClock } from './read-chapters.ts';
export { mergeSpecTable, specTable } from './spec-csv.ts';
export { writeSrt } from './srt.ts';
export { writeVtt } from './vtt.ts';
export { writeVttChapters } from './vtt-chapters.ts';
export { writeVttMetadata } from './vtt-metadata.ts';
export { zonedTime } from './zoned-time.ts';
