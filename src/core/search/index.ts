export { type Answer, type Filters, type Hit, Search } from './search.ts';
export { type Filter, type SearchData, searchData, specRecordId, stepRecordId } from './search-data.ts';
export { kitTitle, type StepRecord, stepRecords } from './step-records.ts';
