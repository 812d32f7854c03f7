export { angleAt, anglesOf, switchAngle } from './commands/angle.ts';
export { clearCue, dragCue, nudgeCue, setCueAndNext, setCueEnd } from './commands/cue.ts';
export { dragEdge } from './commands/cut.ts';
export { writeFile } from './commands/file.ts';
export { chooseById, goTo } from './commands/move.ts';
export type { EditCommand, Outcome } from './commands/outcome.ts';
export { audition } from './commands/play.ts';
export { SNAP_CHOICES, snapChoice, snapped, snapToOther } from './commands/snap.ts';
export { textOf, writeText } from './commands/structure.ts';
export { COMMANDS, type CommandRow, findCommand, GROUPS, type ScreenAction } from './commands/table.ts';
export {
  type Edge,
  edgesOf,
  entriesOf,
  entryTexts,
  nearestEdge,
  sameFrames,
} from './entries.ts';
export {
  begin,
  closeEntry,
  done,
  type History,
  moved,
  type Rebased,
  rebase,
  redo,
  type Stepped,
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
  type Press,
  printBindings,
  readBindings,
  remap,
  reserved,
} from './keys.ts';
export {
  firstFrom,
  inOrder,
  LANDMARKS,
  type Landmark,
  type Landmarks,
  NO_LANDMARKS,
  nearestLandmark,
  neighbour,
} from './landmarks.ts';
export { type Clash, type Merge, mergedText, mergeTexts, type Piece, type Side, settle } from './merge.ts';
export { frameLength, type Labels, labelsOf, onFrame, timecodeAt, writeMoment } from './moments.ts';
export { bodyOf, type Passage, passagesOf } from './passages.ts';
export { buildPeaks, levelFor, type Peaks } from './peaks.ts';
export { joinNear, joinsOf, overCut, playingAt } from './programme-view.ts';
export { framing, lineOf, momentAt, rulerStep, type Scale, scrolled, showing, wholeScale, zoomed } from './scale.ts';
export {
  type Content,
  chosenOf,
  type Desk,
  landmarksOf,
  openSession,
  openSuggestions,
  released,
  type Session,
  type Suggestion,
  type Texts,
  type Transport,
  type View,
  viewOf,
  withContent,
} from './session.ts';
export {
  type Alignment,
  alignByCamera,
  alignByClap,
  bestTakes,
  momentOf,
  type Take,
  type Tap,
  takesOf,
  useShootLog,
} from './shoot-log.ts';
export { shuttled, speedText } from './shuttle.ts';
