export { specWords } from './spec-words.ts';
export { kitTitle, type StepRecord, stepRecords } from './step-records.ts';
