export { type DividedHead, dividedSource, divideIndex } from './divided-index.ts';
export type { ExcerptPiece } from './excerpt.ts';
export { type Answer, type Filters, Search } from './search.ts';
export { type Filter, type SearchData, searchData, specRecordId, stepRecordId } from './search-data.ts';
export { indexOf, wholeSource } from './search-index.ts';
export { kitTitle, lessonRecords, type StepRecord, stepRecords, stepsShown } from './step-records.ts';
