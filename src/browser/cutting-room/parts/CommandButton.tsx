/** @jsxImportSource preact */
import { ariaKey, type CommandRow, findCommand, keyText } from '../../../core/edit/index.ts';
import type { Store } from '../store.ts';

/** A command as a button, which says its key when the pointer rests on it. */
export function CommandButton({
  id,
  store,
  perform,
  name,
}: {
  readonly id: string;
  readonly store: Store;
  readonly perform: (row: CommandRow) => void;
  /** What stands on it here, where that is not what the command is called elsewhere. */
  readonly name?: string;
}) {
  const row = findCommand(id);
  if (!row) return null;
  const keys = store.bindings.value.get(id) ?? [];
  const { transport } = store.session.value;
  const shown = name ?? SHORT[id] ?? row.title;
  const on = id === 'play' ? transport.speed !== 0 : id === 'programme' ? transport.programme : undefined;
  return (
    <button
      type="button"
      title={keys[0] ? `${row.title} (${keyText(keys[0])})` : row.title}
      aria-label={name ?? nameOf(shown, row.title)}
      aria-keyshortcuts={keys.map(ariaKey).join(' ')}
      aria-pressed={on}
      onClick={() => perform(row)}
    >
      {shown}
    </button>
  );
}

/** A name that has in it what stands on the button: whoever speaks to the page says that (WCAG 2.2, 2.5.3). */
function nameOf(shown: string, title: string): string {
  return title.toLowerCase().includes(shown.toLowerCase()) ? title : `${shown}: ${title}`;
}

/** What stands on a button, where its command's title is longer than that. */
const SHORT: Readonly<Record<string, string>> = {
  play: 'Play',
  programme: 'Play edited',
  audition: 'Play across the cut',
  in: 'In',
  out: 'Out',
  cut: 'Cut out',
  keep: 'Restore',
  cue: 'Set cue',
  'add-step': 'Step',
  'add-chapter': 'Chapter',
  undo: 'Undo',
  redo: 'Redo',
  help: 'Keys',
  read: 'Read captions',
  'hear-again': 'Hear again',
  correct: 'Correct the words',
};
