export {
  programmeCaptions,
  type Retimed,
  retimeCaptions,
} from './captions.ts';
export { type CardValue, type PictureCard, type PlacedCard, programmeCards } from './cards.ts';
export { offInWords } from './corrected-rows.ts';
export { type Acceptance, type CorrectionText, correctionTexts } from './correction-texts.ts';
export { type CorrectionShown, changedAfterClass, correctionsShown } from './corrections.ts';
export { correctionOf, type Disagreement, disagreements, type RowAgainst } from './disagreements.ts';
export { entriesOf } from './entries-of.ts';
export { type LengthenedWrench, lengthenedWrench } from './lengthened-wrench.ts';
export {
  type ChapterTimes,
  type LessonTimes,
  lessonTimes,
  lessonTimesJson,
  type PassageTimes,
} from './lesson-times.ts';
export { piecesByOpening, planOpenings } from './openings.ts';
export {
  type Finished,
  filePosition,
  finishedPlan,
  finishedSpans,
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
  programmeFile,
  programmeMoment,
} from './play-plan.ts';
export { comparisonInWords, provenanceOf } from './provenance.ts';
export { rowShown } from './row-shown.ts';
export {
  citedSpecs,
  conditionInWords,
  labelledRows,
  type RowShown,
  rowsById,
  rowsCited,
  rowsFor,
  rowsOfLesson,
} from './rows-for.ts';
export { SAFETY_WORDS } from './safety-words.ts';
export { sourceInWords } from './source-in-words.ts';
export { type Tool, toolsUsed } from './tools-used.ts';
export { translatedLesson, translationFaults } from './translation.ts';
export { webvttTime } from './webvtt-time.ts';
export { correctionOfWithdrawn, type WithdrawnSaid, withdrawnSaid } from './withdrawn.ts';
