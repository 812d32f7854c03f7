export type { Exported, TimedCaption } from './format.ts';
export { writeSrt } from './srt.ts';
export { writeVtt } from './vtt.ts';
