export { type Aligned, type Alignment, alignSound } from './align.ts';
export {
  type AnalyseParams,
  analyseArgs,
  COARSE_RATE,
  LOGS,
  type LoudnessLog,
  type PictureLog,
  readLoudnessLog,
  readPictureLog,
  type Stretch,
  THUMBNAILS,
} from './analyse-args.ts';
export { type AngleFrames, angleFrames, anglesUsed, type PictureRun, pictureRuns, usedOf } from './angle-plan.ts';
export { type CardRun, planCards } from './card-plan.ts';
export {
  blankPictureArgs,
  encodePictureArgs,
  levelFilters,
  type PictureCoding,
  type PictureJob,
  type SoundInput,
  type SoundLevel,
  soundArgs,
} from './encode-args.ts';
export { factsOf, type MediaDetails, type Picture, type Sound } from './facts.ts';
export { type CodedPicture, type CopyPoints, copyPoints } from './groups.ts';
export { cameraInput, joinedInput, ownInput } from './input-args.ts';
export { type Job, type JobInput, type JobParams, type JobValue, jobText } from './job.ts';
export { frameTotal, type KeptFrames, keptFrames } from './kept-frames.ts';
export { type FileLook, type FootageFile, type Look, planLook, shownSize } from './look.ts';
export {
  type Blocks,
  GAIN_STEP,
  integratedLoudness,
  type Levelling,
  type Measured,
  MOST_GAIN,
  planLevelling,
  TRUE_PEAK_CEILING,
} from './loudness.ts';
export {
  freeNumber,
  type ParameterSets,
  pictureNumber,
  readConfiguration,
  same,
  sequenceNumber,
  startsAfresh,
  writeConfiguration,
} from './parameter-sets.ts';
export { type PictureSource, type PictureUnit, piecesOf, planPicture, sharesOf } from './picture-plan.ts';
export {
  AAC_FRAME,
  planHeard,
  planSound,
  SAMPLE_RATE,
  type SoundPiece,
  type SoundPlan,
  type SoundRun,
  type SoundSource,
} from './sound-plan.ts';
export { findClaps, type Heard, listenFor, peakLevels, peakPairs } from './speech.ts';
export { planStoryboard, type StoryboardPlan, storyboardVtt } from './storyboard.ts';
export { type SuggestFrom, type Suggestion, type SuggestionKind, suggestCuts } from './suggest.ts';
export {
  bitRates,
  ENCODERS,
  hlsArgs,
  ladderFor,
  type Rung,
  readMediaPlaylist,
  type Segment,
  soundComesEarly,
  VERSIONS,
  type Version,
  type WebmForm,
  webmArgs,
  webmTrialArgs,
  withBitRates,
} from './versions.ts';
