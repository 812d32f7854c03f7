import type { Session } from '../session.ts';
import { chosenOf } from '../session.ts';
import { titleHeard } from '../title-heard.ts';
import { switchAngle } from './angle.ts';
import { clearCue, nudgeCue, setCueAndNext, setCueEnd } from './cue.ts';
import {
  cutHead,
  cutMarked,
  cutTail,
  edgeToLandmark,
  edgeToPlayhead,
  keepAgain,
  markIn,
  markOut,
  nudgeEdge,
} from './cut.ts';
import { choose, frames, jump, jumpBy, seconds, toCue, toEnd, toIn, toOut, toStart } from './move.ts';
import type { EditCommand } from './outcome.ts';
import { audition, backwards, faster, playAsProgramme, playOrStop, slow, stop } from './play.ts';
import { hearAgain, leave, readCaption } from './reading.ts';
import { snapToOther, toggleSnapping } from './snap.ts';
import { addChapter, addStep, chooseWhatPlays, merge, removePassage, rename, reorder, split } from './structure.ts';
import { acceptAsChapter, acceptSuggestion, refuseSuggestion, toSuggestion } from './suggested.ts';

/** What the page does itself, because only it knows how. */
export type ScreenAction =
  | 'undo'
  | 'redo'
  | 'help'
  | 'write'
  | 'correct'
  | 'zoom-in'
  | 'zoom-out'
  | 'zoom-all'
  | 'zoom-chosen'
  | 'next-diagnostic'
  | 'remedy';

/** A command asks for words before it runs. */
export interface Asks {
  readonly label: string;
  /** What stands in the field at first. */
  start?(session: Session): string;
}

/** One row: what keys, buttons and the help are made from. */
export interface CommandRow {
  readonly id: string;
  readonly title: string;
  readonly group: Group;
  readonly keys: readonly string[];
  readonly run?: EditCommand;
  readonly asks?: Asks;
  readonly screen?: ScreenAction;
  /** Held down it goes on. */
  readonly repeats?: boolean;
}

export const GROUPS = [
  'Playing',
  'Moving',
  'Jumping',
  'Cutting',
  'Cues',
  'Chapters and steps',
  'Proposals',
  'Captions',
  'View',
  'Everything',
] as const;
export type Group = (typeof GROUPS)[number];

/** The first words said there stand in the field, to be kept with Enter or typed over. */
const titleAsked = (label: string): Asks => ({ label, start: titleHeard });

/**
 * Every command of the cutting room. J K L, space, I and O, arrows by frame and Home, End are the trade's long habits
 * (common practice, no source); the other letters are ours, most of them the first of what they do.
 */
export const COMMANDS: readonly CommandRow[] = [
  { id: 'play', title: 'Play or stop', group: 'Playing', keys: ['Space'], run: playOrStop },
  { id: 'back', title: 'Play backwards, faster each time', group: 'Playing', keys: ['j'], run: backwards },
  { id: 'stop', title: 'Stop', group: 'Playing', keys: ['k'], run: stop },
  { id: 'forward', title: 'Play forwards, faster each time', group: 'Playing', keys: ['l'], run: faster },
  {
    id: 'slow-back',
    title: 'Play backwards slowly, slower each time',
    group: 'Playing',
    keys: ['Shift+j'],
    run: slow(-1),
  },
  { id: 'slow-on', title: 'Play forwards slowly, slower each time', group: 'Playing', keys: ['Shift+l'], run: slow(1) },
  {
    id: 'programme',
    title: 'Play edited, without what is cut',
    group: 'Playing',
    keys: ['p'],
    run: playAsProgramme,
  },
  {
    id: 'audition',
    title: 'Play two seconds either side of the nearest join',
    group: 'Playing',
    keys: ['b'],
    run: audition,
  },

  { id: 'frame-back', title: 'One frame back', group: 'Moving', keys: ['ArrowLeft'], run: frames(-1), repeats: true },
  { id: 'frame-on', title: 'One frame on', group: 'Moving', keys: ['ArrowRight'], run: frames(1), repeats: true },
  {
    id: 'second-back',
    title: 'One second back',
    group: 'Moving',
    keys: ['Shift+ArrowLeft'],
    run: seconds(-1),
    repeats: true,
  },
  {
    id: 'second-on',
    title: 'One second on',
    group: 'Moving',
    keys: ['Shift+ArrowRight'],
    run: seconds(1),
    repeats: true,
  },
  { id: 'start', title: 'To the start', group: 'Moving', keys: ['Home'], run: toStart },
  { id: 'end', title: 'To the end', group: 'Moving', keys: ['End'], run: toEnd },
  { id: 'to-in', title: 'To the in point', group: 'Moving', keys: ['Shift+i'], run: toIn },
  { id: 'to-out', title: 'To the out point', group: 'Moving', keys: ['Shift+o'], run: toOut },
  {
    id: 'choose-up',
    title: 'Choose the step above',
    group: 'Moving',
    keys: ['ArrowUp'],
    run: choose(-1),
    repeats: true,
  },
  {
    id: 'choose-down',
    title: 'Choose the step below',
    group: 'Moving',
    keys: ['ArrowDown'],
    run: choose(1),
    repeats: true,
  },
  { id: 'choose-playing', title: 'Choose the step that is on', group: 'Moving', keys: ['q'], run: chooseWhatPlays },
  { id: 'to-cue', title: 'To the cue of the chosen step', group: 'Moving', keys: ['Enter'], run: toCue },

  { id: 'jump-back', title: 'Jump back', group: 'Jumping', keys: [','], run: jump(-1), repeats: true },
  { id: 'jump-on', title: 'Jump on', group: 'Jumping', keys: ['.'], run: jump(1), repeats: true },
  { id: 'by-silence', title: 'Jump by silence', group: 'Jumping', keys: ['1'], run: jumpBy('silence') },
  { id: 'by-scene', title: 'Jump by scene change', group: 'Jumping', keys: ['2'], run: jumpBy('scene') },
  { id: 'by-cut', title: 'Jump by edge of a cut', group: 'Jumping', keys: ['3'], run: jumpBy('cut') },
  { id: 'by-cue', title: 'Jump by cue', group: 'Jumping', keys: ['4'], run: jumpBy('cue') },
  { id: 'by-caption', title: 'Jump by caption', group: 'Jumping', keys: ['5'], run: jumpBy('caption') },
  { id: 'by-word', title: 'Jump by word', group: 'Jumping', keys: ['7'], run: jumpBy('word') },
  { id: 'by-keyframe', title: 'Jump by key frame', group: 'Jumping', keys: ['6'], run: jumpBy('keyframe') },

  { id: 'in', title: 'Set the in point', group: 'Cutting', keys: ['i'], run: markIn },
  { id: 'out', title: 'Set the out point', group: 'Cutting', keys: ['o'], run: markOut },
  {
    id: 'clear-marks',
    title: 'Clear in and out points; leave the reading pass',
    group: 'Cutting',
    keys: ['Escape'],
    run: leave,
  },
  { id: 'cut', title: 'Cut out what lies between the points', group: 'Cutting', keys: ['x'], run: cutMarked },
  {
    id: 'keep',
    title: 'Restore: between the points, or the cut here',
    group: 'Cutting',
    keys: ['r'],
    run: keepAgain,
  },
  { id: 'cut-head', title: 'Cut the head off, up to here', group: 'Cutting', keys: ['h'], run: cutHead },
  { id: 'cut-tail', title: 'Cut the tail off, from here on', group: 'Cutting', keys: ['t'], run: cutTail },
  {
    id: 'edge-back',
    title: 'Nearest edge one frame earlier',
    group: 'Cutting',
    keys: ['['],
    run: nudgeEdge(-1),
    repeats: true,
  },
  {
    id: 'edge-on',
    title: 'Nearest edge one frame later',
    group: 'Cutting',
    keys: [']'],
    run: nudgeEdge(1),
    repeats: true,
  },
  {
    id: 'edge-snap-back',
    title: 'Nearest edge to the snap point before',
    group: 'Cutting',
    keys: ['{'],
    run: edgeToLandmark(-1),
  },
  {
    id: 'edge-snap-on',
    title: 'Nearest edge to the next snap point',
    group: 'Cutting',
    keys: ['}'],
    run: edgeToLandmark(1),
  },
  { id: 'edge-here', title: 'Nearest edge to here', group: 'Cutting', keys: ['e'], run: edgeToPlayhead },
  { id: 'snapping', title: 'Snapping on or off', group: 'Cutting', keys: ['s'], run: toggleSnapping },
  { id: 'snap-to', title: 'Snap to something else', group: 'Cutting', keys: ['Shift+s'], run: snapToOther },
  {
    id: 'angle',
    title: 'Show it by the next camera: between the points, or the kept range here',
    group: 'Cutting',
    keys: ['f'],
    run: switchAngle,
  },

  {
    id: 'cue',
    title: 'Set the cue of the chosen step here, choose the next',
    group: 'Cues',
    keys: ['m'],
    run: setCueAndNext,
  },
  { id: 'cue-end', title: 'The step ends here', group: 'Cues', keys: ['Shift+m'], run: setCueEnd },
  { id: 'cue-back', title: 'Cue one frame earlier', group: 'Cues', keys: ['<'], run: nudgeCue(-1), repeats: true },
  { id: 'cue-on', title: 'Cue one frame later', group: 'Cues', keys: ['>'], run: nudgeCue(1), repeats: true },
  { id: 'cue-clear', title: 'Take the cue out', group: 'Cues', keys: ['Delete'], run: clearCue },

  {
    id: 'add-step',
    title: 'Add a step here',
    group: 'Chapters and steps',
    keys: ['a'],
    asks: titleAsked('Title of the new step'),
    run: addStep,
  },
  {
    id: 'add-chapter',
    title: 'Add a chapter here',
    group: 'Chapters and steps',
    keys: ['c'],
    asks: titleAsked('Title of the new chapter'),
    run: addChapter,
  },
  {
    id: 'rename',
    title: 'Rename what is chosen',
    group: 'Chapters and steps',
    keys: ['F2'],
    asks: { label: 'Title', start: (session) => chosenOf(session)?.title ?? '' },
    run: rename,
  },
  { id: 'write', title: 'Write its text', group: 'Chapters and steps', keys: ['w'], screen: 'write' },
  {
    id: 'split',
    title: 'Split what is chosen here',
    group: 'Chapters and steps',
    keys: ['v'],
    asks: titleAsked('Title of the second part'),
    run: split,
  },
  { id: 'merge', title: 'Merge with the next one', group: 'Chapters and steps', keys: ['Shift+v'], run: merge },
  { id: 'move-up', title: 'Move up', group: 'Chapters and steps', keys: ['Shift+ArrowUp'], run: reorder(-1) },
  { id: 'move-down', title: 'Move down', group: 'Chapters and steps', keys: ['Shift+ArrowDown'], run: reorder(1) },
  {
    id: 'remove',
    title: 'Take the step or chapter out',
    group: 'Chapters and steps',
    keys: ['Shift+Delete'],
    run: removePassage,
  },

  {
    id: 'suggestion',
    title: 'To the next proposed cut or step',
    group: 'Proposals',
    keys: ['g'],
    run: toSuggestion(1),
  },
  { id: 'suggestion-back', title: 'To the one before', group: 'Proposals', keys: ['Shift+g'], run: toSuggestion(-1) },
  { id: 'accept', title: 'Yes: make the cut, add the step', group: 'Proposals', keys: ['y'], run: acceptSuggestion },
  {
    id: 'accept-chapter',
    title: 'Yes, as a chapter',
    group: 'Proposals',
    keys: ['Shift+y'],
    run: acceptAsChapter,
  },
  { id: 'refuse', title: 'No, and not again', group: 'Proposals', keys: ['n'], run: refuseSuggestion },

  {
    id: 'read',
    title: 'Read captions: accept the one heard, on to the next',
    group: 'Captions',
    keys: ['u'],
    run: readCaption,
  },
  { id: 'hear-again', title: 'Hear the caption again', group: 'Captions', keys: ['Shift+u'], run: hearAgain },
  { id: 'correct', title: 'Correct its words', group: 'Captions', keys: ['Shift+w'], screen: 'correct' },

  { id: 'zoom-in', title: 'Zoom in', group: 'View', keys: ['+', '='], screen: 'zoom-in', repeats: true },
  { id: 'zoom-out', title: 'Zoom out', group: 'View', keys: ['-'], screen: 'zoom-out', repeats: true },
  { id: 'zoom-all', title: 'The whole recording', group: 'View', keys: ['0'], screen: 'zoom-all' },
  { id: 'zoom-chosen', title: 'The chosen step', group: 'View', keys: ['z'], screen: 'zoom-chosen' },
  {
    id: 'next-diagnostic',
    title: 'To the next thing the check found',
    group: 'View',
    keys: ['d'],
    screen: 'next-diagnostic',
  },
  {
    id: 'remedy',
    title: 'Apply the fix that the check proposes',
    group: 'View',
    keys: ['Shift+d'],
    screen: 'remedy',
  },

  { id: 'undo', title: 'Undo', group: 'Everything', keys: ['Mod+z'], screen: 'undo', repeats: true },
  { id: 'redo', title: 'Redo', group: 'Everything', keys: ['Mod+Shift+z', 'Mod+y'], screen: 'redo', repeats: true },
  { id: 'help', title: 'Keys', group: 'Everything', keys: ['?'], screen: 'help' },
];

export function findCommand(id: string): CommandRow | undefined {
  return COMMANDS.find((row) => row.id === id);
}
