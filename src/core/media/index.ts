export { type Aligned, type Alignment, alignSound } from './align.ts';
export {
  type AnalyseParams,
  analyseArgs,
  COARSE_RATE,
  GRID,
  LOGS,
  readLoudnessLog,
  readPictureLog,
  type Stretch,
  THUMBNAILS,
} from './analyse-args.ts';
export { angleFrames, anglesUsed, type PictureRun, pictureRuns, usedOf } from './angle-plan.ts';
export { type Bytes, bytesRead, joinBytes, type Reading } from './bytes-read.ts';
export { addMovement, cornerFor, type Movement, movementInCorners } from './card-corner.ts';
export { type CardRun, planCards } from './card-plan.ts';
export {
  blankPictureArgs,
  encodePictureArgs,
  framesRead,
  levelFilters,
  lookAtFramesArgs,
  type PictureCoding,
  type PictureJob,
  type SoundInput,
  type SoundLevel,
  soundArgs,
  soundRead,
} from './encode-args.ts';
export { factsOf, type MediaDetails, type Picture, type Sound } from './facts.ts';
export { type DividePoint, LARGEST_ON_FAT32, planFilmParts, readLargest } from './film-parts.ts';
export { CAPTIONS, FOOTAGE, isFootage } from './footage-names.ts';
export { type CodedPicture, type CopyPoints, copyPoints } from './groups.ts';
export { type HeardPiece, joinHeard, PIECE_LENGTH, PIECE_OVERLAP } from './heard-pieces.ts';
export { cameraInput, joinedInput, ownInput } from './input-args.ts';
export { type Job, type JobInput, jobText } from './job.ts';
export { jobPriority } from './job-priority.ts';
export { frameTotal, type KeptFrames, keptFrames } from './kept-frames.ts';
export { type FootageFile, type Look, planLook, shownSize } from './look.ts';
export {
  type Blocks,
  blocksWithin,
  integratedLoudness,
  type Levelling,
  type Measured,
  MOST_GAIN,
  planLevelling,
} from './loudness.ts';
export { findStill } from './movement.ts';
export { type FilmIndex, readFilmIndex } from './mp4-index.ts';
export {
  type ParameterSets,
  readConfiguration,
  startsAfresh,
  writeConfiguration,
} from './parameter-sets.ts';
export { type PictureSource, type PictureUnit, piecesOf, planPicture, sharesOf } from './picture-plan.ts';
export { planStills, type StillPlan, stillMoment } from './plan-stills.ts';
export { type HeardSpeech, presenceHeard, presenceOf, type SpeechBy } from './presence.ts';
export {
  planSeekPictures,
  readSeekPictures,
  type SeekPicturesPlan,
  type SeekSheet,
  seekPicturesVtt,
} from './seek-pictures.ts';
export {
  AAC_FRAME,
  planHeard,
  planSound,
  SAMPLE_RATE,
  type SoundPiece,
  type SoundPlan,
  type SoundSource,
} from './sound-plan.ts';
export { findClaps, listenFor, peakLevels, peakPairs } from './speech.ts';
export { type SuggestFrom, type Suggestion, suggestCuts } from './suggest.ts';
export { planTake, type TakeFile, type TakePlan } from './take-plan.ts';
export { takeText } from './take-text.ts';
export {
  bitRates,
  ENCODERS,
  hlsArgs,
  ladderFor,
  readMediaPlaylist,
  soundComesEarly,
  VERSIONS,
  type Version,
  type WebmForm,
  webmArgs,
  webmTrialArgs,
  withBitRates,
} from './versions.ts';
export { VOICE_RATE, VOICE_SETTINGS, VOICE_WINDOW, voiceArgs } from './voice-args.ts';
