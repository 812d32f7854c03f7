export { fileAt, placeFiles } from './camera-files.ts';
export { parseClockTime, printClockTime, printSignedTime, twoDigits } from './clock-time.ts';
export { common, jumps, putBack, showBy, within, without, withoutOverlaps, withPoints } from './edit-algebra.ts';
export { diffInWords, type NamedPart } from './edit-diff.ts';
export {
  type EditEntry,
  type EditList,
  editList,
  invert,
  OPEN_END,
  rangeToProgramme,
  rangeToRecording,
  runtime,
  toProgramme,
  toRecording,
} from './edit-list.ts';
export { firstWhere } from './first-where.ts';
export { evenGrid, type FrameGrid, filmedGrid, gridOf, measuredGrid, ROUNDING_TICKS } from './frame-grid.ts';
export { FRAME_RATES, type FrameRate, findRate, nearestRate, RATE_NAMES } from './frame-rate.ts';
export { groupBy } from './group-by.ts';
export { isoDay } from './iso-day.ts';
export { lastUpTo } from './last-up-to.ts';
export { parseFragment } from './media-fragment.ts';
export { isTimecode, type Labelling, parseMoment } from './moment.ts';
export { must } from './must.ts';
export { fail, ok, type Parsed } from './parsed.ts';
export { remembered } from './remembered.ts';
export {
  type Clock,
  contains,
  fromSeconds,
  intersect,
  later,
  lengthOf,
  type Range,
  range,
  TICKS_PER_SECOND,
  type Ticks,
  ticks,
  toSeconds,
} from './ticks.ts';
export {
  frameAt,
  frameStart,
  framesBetween,
  framesPerDay,
  parseTimecode,
  printTimecode,
  timecodeAt,
} from './timecode.ts';
