export { type Counted, countRecords } from './counted.ts';
export { type DividedHead, dividedSource, divideIndex } from './divided-index.ts';
export type { ExcerptPiece } from './excerpt.ts';
export { type Answer, type Filters, Search } from './search.ts';
export {
  type Filter,
  type SearchData,
  searchData,
  searchedBy,
  searchedSpecs,
  searchedStep,
  specRecordId,
  stepRecordId,
} from './search-data.ts';
export { indexOf, indexOfCounted, wholeSource } from './search-index.ts';
export { SearchWords } from './search-words.ts';
export { kitTitle, lessonRecords, type StepRecord, stepRecords, stepsShown } from './step-records.ts';
