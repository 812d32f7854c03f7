import { english } from '../../core/locale/index.ts';

/** What a key does; the help in the page is made from the same table. */
export type KeyAction =
  | 'toggle'
  | 'back'
  | 'on'
  | 'frame-back'
  | 'frame-on'
  | 'previous'
  | 'again'
  | 'next'
  | 'repeat'
  | 'slower'
  | 'faster'
  | 'captions'
  | 'full-screen'
  | 'bench'
  | 'aloud'
  | 'listen'
  | 'link'
  | 'small-window'
  | 'help';

export interface Key {
  readonly key: string;
  /** As it is written on the keyboard. */
  readonly cap: string;
  readonly does: string;
  readonly action: KeyAction;
}

export const KEYS: readonly Key[] = [
  { key: ' ', cap: english('Space'), does: english('play or pause'), action: 'toggle' },
  { key: 'k', cap: 'K', does: english('play or pause'), action: 'toggle' },
  { key: 'ArrowLeft', cap: '←', does: english('back 5 seconds'), action: 'back' },
  { key: 'ArrowRight', cap: '→', does: english('on 5 seconds'), action: 'on' },
  { key: 'ArrowDown', cap: '↓', does: english('back one frame'), action: 'frame-back' },
  { key: 'ArrowUp', cap: '↑', does: english('on one frame'), action: 'frame-on' },
  { key: 'p', cap: 'P', does: english('previous step'), action: 'previous' },
  { key: 'a', cap: 'A', does: english('this step again'), action: 'again' },
  { key: 'n', cap: 'N', does: english('next step'), action: 'next' },
  { key: 'r', cap: 'R', does: english('repeat this step until told otherwise'), action: 'repeat' },
  { key: '-', cap: '−', does: english('slower'), action: 'slower' },
  { key: '+', cap: '+', does: english('faster'), action: 'faster' },
  { key: 'c', cap: 'C', does: english('captions on or off'), action: 'captions' },
  { key: 'f', cap: 'F', does: english('full screen on or off'), action: 'full-screen' },
  { key: 'b', cap: 'B', does: english('bench view on or off'), action: 'bench' },
  { key: '?', cap: '?', does: english('these keys'), action: 'help' },
];

/**
 * The action of a key press; nothing where the key belongs to what has the focus: a text field, a slider,
 * an open menu, or Space on a button or link.
 */
export function actionOf(event: KeyboardEvent): KeyAction | undefined {
  if (event.defaultPrevented || event.ctrlKey || event.altKey || event.metaKey) return undefined;
  const target = event.target instanceof Element ? event.target : undefined;
  if (target?.closest('input:not([type=checkbox]), textarea, select, [contenteditable], dialog')) return undefined;
  const found = KEYS.find(({ key }) => key === event.key || key === event.key.toLowerCase());
  if (!found) return undefined;
  if (found.key === ' ' && target?.closest('button, a, summary, input, [role=button], [role^=menuitem]'))
    return undefined;
  if (found.key.startsWith('Arrow') && target?.closest('[role=slider], [role=menu], .vjs-menu-button'))
    return undefined;
  return found.action;
}
