export { brokenAmong, lessonParts, namesIn } from './alone.ts';
export { allTold, check, count } from './check.ts';
export { EXPLAINABLE, type Explained, explain, explainText } from './explain.ts';
export { inAround, inLesson, inMachine, inRecording } from './kept-findings.ts';
export { FAR_FROM_NEIGHBOUR, LIMITS_APART, TOLERANCE_UNLIKE, TOLERANCE_WIDE, TORQUE_TIGHT } from './likely.ts';
export type { Raw } from './one-cause.ts';
export { programmeFindings } from './programme-findings.ts';
export { READ_FAULTS } from './read-faults.ts';
export { reportJson } from './report-json.ts';
export { reportSarif } from './report-sarif.ts';
export { type Paint, reportText } from './report-text.ts';

export { RULES } from './rules/index.ts';
export { both, lesson, replaceIn, SAMPLE_TODAY, type Sample, SOUND, SOUND_SHOP, sampleContent } from './sample.ts';
