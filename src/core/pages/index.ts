export { type BeforeYouStart, beforeYouStart } from './before-you-start.ts';
export { type ClassHead, type ClassSheet, classPage, classSheet } from './class-page.ts';
export { DAY_PAPERS, dayPapers } from './class-papers.ts';
export { type CorrectionNote, correctionNote } from './correction-note.ts';
export { classInCourse } from './course-of.ts';
export { cssString, escapeHtml, escapeXml, scriptJson } from './escape.ts';
export { findingsHtml, findingsPage } from './findings-html.ts';
export { frontPage, type LessonOnFront, lessonOnFront } from './front-page.ts';
export { glossary } from './glossary.ts';
export { type JobSheet, jobSheet, type LimitRow, type Measured } from './job-sheet.ts';
export { inLanguage, languageOfCaptions, languageOfLesson, languagesOf, madeOnce, prefixOf } from './languages.ts';
export type { LessonData, TimedPart } from './lesson-data.ts';
export {
  type ChapterOnPage,
  type LessonPage,
  lessonPage,
  type PartHead,
  type StepOnPage,
  specsShown,
} from './lesson-page.ts';
export type { AddressOf, Film } from './lesson-parts.ts';
export { type ListPart, lessonsParts, partAt, partsNamed, stepsParts } from './list-parts.ts';
export { MissingValue } from './missing-value.ts';
export { signalText } from './signal-text.ts';
export { type MachineChoice, type SiteFrame, siteFrame } from './site-frame.ts';
export { siteMap, sitePages } from './site-pages.ts';
export { specAnchor } from './spec-anchor.ts';
export { specsByKind } from './specs-by-kind.ts';
export {
  type LessonListed,
  lessonListed,
  type SpecListed,
  type StepListed,
  specsListed,
  stepListed,
  stepsFilters,
  stepsPage,
} from './steps-page.ts';
export { type TaughtChapter, taughtChapters } from './taught-chapters.ts';
export type { TextShown } from './text-shown.ts';
export { type Holds, holdsFor, type ValueShown, valueShown } from './value-shown.ts';
export { wrenchSettings } from './wrench-settings.ts';
