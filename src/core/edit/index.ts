export { captionsOf, captionText, unreadOf } from './captions.ts';
export { angleAt, anglesOf, anglesToAlign, placeAngle, switchAngle } from './commands/angle.ts';
export { dragCue } from './commands/cue.ts';
export { dragEdge } from './commands/cut.ts';
export { writeFile } from './commands/file.ts';
export { applyFix, canApply } from './commands/fix.ts';
export { chooseById, goTo } from './commands/move.ts';
export type { EditCommand } from './commands/outcome.ts';
export { answerQuestion, dismissQuestion, type OpenQuestion, openQuestions } from './commands/question.ts';
export { captionBeingRead, correctCaption, READING_SPEEDS, readingSpeed } from './commands/reading.ts';
export { SNAP_CHOICES, snap, snapChoice, snapToOther } from './commands/snap.ts';
export { textOf, writeText } from './commands/structure.ts';
export { COMMANDS, type CommandRow, findCommand, GROUPS } from './commands/table.ts';
export { printDecisions, readDecisions } from './decisions.ts';
export {
  type Edge,
  edgesOf,
  entryTexts,
} from './entries.ts';
export {
  addEntry,
  begin,
  closeEntry,
  type History,
  rebase,
  redo,
  replaceNow,
  undo,
} from './history.ts';
export {
  ariaKey,
  type Bindings,
  commandOf,
  DEFAULT_BINDINGS,
  isClean,
  keyName,
  keyText,
  printBindings,
  readBindings,
  remap,
  reservedReason,
} from './keys.ts';
export {
  firstFrom,
  inOrder,
  type Landmarks,
} from './landmarks.ts';
export { type Clash, type Merge, mergedText, mergeTexts, type Side, settle } from './merge.ts';
export { frameLength, labelsOf, onFrame, timecodeAt, writeMoment } from './moments.ts';
export { openSuggestions } from './open-suggestions.ts';
export { bodyOf, type Passage } from './passages.ts';
export { buildPeaks, levelFor, type Peaks } from './peaks.ts';
export { overCut } from './programme-view.ts';
export { proposeSteps } from './propose-steps.ts';
export { rulerMarks } from './ruler.ts';
export { framing, lineOf, momentAt, type Scale, scroll, showing, wholeScale, zoom } from './scale.ts';
export {
  type Content,
  chosenOf,
  type Desk,
  openSession,
  readAgain,
  releaseTransport,
  type Session,
  type Suggestion,
  withContent,
} from './session.ts';
export {
  type Alignment,
  alignByCamera,
  alignByClap,
  bestTakes,
  momentOf,
  type Tap,
  takesOf,
  useShootLog,
} from './shoot-log.ts';
export { nextShuttleSpeed, speedText } from './shuttle.ts';
