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
export { type Job, type JobInput, type JobParams, type JobValue, jobText } from './job.ts';
export { frameTotal, type KeptFrames, keptFrames } from './kept-frames.ts';
export { type FileLook, type FootageFile, type Look, planLook } from './look.ts';
export {
  type Blocks,
  GAIN_STEP,
  integratedLoudness,
  type Levelling,
  type Measured,
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
export { type PictureSource, type PictureUnit, planPicture, sharesOf } from './picture-plan.ts';
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
export { planStoryboard, type StoryboardPlan, storyboardVtt } from './storyboard.ts';
export { ENCODERS, hlsArgs, ladderFor, type Rung, VERSIONS, type Version, webmArgs } from './versions.ts';
