export {
  type CutCaption,
  LEAST_REST,
  type ProgrammeCaption,
  programmeCaptions,
  type Retimed,
  retimeCaptions,
} from './captions.ts';
export {
  type ChapterTimes,
  type LessonTimes,
  lessonTimes,
  lessonTimesJson,
  type Span,
  type StepTimes,
} from './lesson-times.ts';
export {
  filePosition,
  type PlayFile,
  type PlayPiece,
  type PlayPlan,
  type PlayPlanJson,
  pieceAt,
  planFromJson,
  planToJson,
  playLength,
  playPieces,
  playPlan,
  programmeMoment,
} from './play-plan.ts';
export { webvttTime } from './webvtt-time.ts';
