export { type Course, cmi5Structure, scormManifest } from './manifests.ts';
export {
  type Asked,
  askedOf,
  nothingDone,
  played,
  progressText,
  readingName,
  readProgress,
  sumOf,
} from './progress.ts';
export { MOST_SUSPENDED, type Scorm12Api, Scorm12Session, timespan } from './scorm12.ts';
export { ReadingsTold, type ReadingTaken, type SchoolSession, type SchoolState } from './session.ts';
export { type Launch, type LaunchData, readLaunch, statement, type Told } from './statements.ts';
