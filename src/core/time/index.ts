export { parseClockTime, printClockTime } from './clock-time.ts';
export {
  type EditList,
  editList,
  invert,
  type Placed,
  rangeToProgramme,
  runtime,
  toProgramme,
  toRecording,
} from './edit-list.ts';
export { FRAME_RATES, type FrameRate, findRate, nearestRate, RATE_NAMES, type RateName } from './frame-rate.ts';
export { type Fragment, parseFragment } from './media-fragment.ts';
export { type Parsed, parsed, refused } from './parsed.ts';
export {
  type Clock,
  contains,
  fromSeconds,
  intersect,
  lengthOf,
  type Range,
  range,
  TICKS_PER_SECOND,
  type Ticks,
  ticks,
  toSeconds,
} from './ticks.ts';
export { frameAt, frameStart, framesPerDay, parseTimecode, printTimecode } from './timecode.ts';
