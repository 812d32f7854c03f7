/** What a key or button of the one who leads the class does. */
export type LeadDoes =
  | 'next'
  | 'back'
  | 'toggle'
  | 'again'
  | 'slower'
  | 'faster'
  | 'dark'
  | 'point'
  | 'year'
  | 'step'
  | 'question'
  | 'way-1'
  | 'way-2'
  | 'way-3'
  | 'undo'
  | 'one-more'
  | 'one-fewer';

/** Keys, in the order in which the page lists them; buttons and keys are made from this one table. */
export const LEAD_KEYS: readonly {
  readonly key: string;
  readonly shown: string;
  readonly does: LeadDoes;
  readonly words: string;
}[] = [
  { key: 'n', shown: 'N', does: 'next', words: 'Next block' },
  { key: 'b', shown: 'B', does: 'back', words: 'Back to the block before' },
  { key: ' ', shown: 'Space', does: 'toggle', words: 'Play or pause' },
  { key: 'a', shown: 'A', does: 'again', words: 'Step again' },
  { key: 's', shown: 'S', does: 'slower', words: 'Slower' },
  { key: 'f', shown: 'F', does: 'faster', words: 'Faster' },
  { key: 'd', shown: 'D', does: 'dark', words: 'Screen dark' },
  { key: 'p', shown: 'P', does: 'point', words: 'Freeze the picture and point' },
  { key: 'y', shown: 'Y', does: 'year', words: 'Values of another model year' },
  { key: 'g', shown: 'G', does: 'step', words: 'Go to a step by number' },
  { key: 'q', shown: 'Q', does: 'question', words: 'Set a question aside' },
  { key: '1', shown: '1', does: 'way-1', words: 'Take the first way out' },
  { key: '2', shown: '2', does: 'way-2', words: 'Take the second' },
  { key: '3', shown: '3', does: 'way-3', words: 'Take the third' },
  { key: 'u', shown: 'U', does: 'undo', words: 'Undo the last change of plan' },
  { key: '+', shown: '+', does: 'one-more', words: 'One more has come' },
  { key: '-', shown: '-', does: 'one-fewer', words: 'One fewer' },
];

/** What a press of a key does; nothing where somebody writes, or holds a key that means something to the browser. */
export function doesOf(event: KeyboardEvent): LeadDoes | undefined {
  if (event.ctrlKey || event.metaKey || event.altKey) return undefined;
  if (event.target instanceof HTMLElement && event.target.matches('input, textarea, select')) return undefined;
  // A button that has the focus takes Space and Enter itself.
  if (event.key === ' ' && event.target instanceof HTMLElement && event.target.matches('button, summary, a'))
    return undefined;
  return LEAD_KEYS.find(({ key }) => key === event.key.toLowerCase())?.does;
}
