import { fail, ok, type Parsed } from '../time/index.ts';
import { COMMANDS, type CommandRow } from './commands/table.ts';

/** A key press as a page hears it. */
export interface Press {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
  readonly shiftKey: boolean;
}

/**
 * The name of a key press: `m`, `Shift+m`, `Mod+z`, `ArrowLeft`, `?`. Signs are named as they come out, so that a
 * keyboard of another language types the same name; Ctrl and the command key are both `Mod`.
 */
export function keyName({ key, ctrlKey, metaKey, altKey, shiftKey }: Press): string {
  const sign = key.length === 1 && !/[\p{L}\s]/u.test(key);
  // Some layouts reach their signs by AltGr, which browsers report as Ctrl and Alt together.
  const throughAltGr = sign && altKey && ctrlKey;
  const name = key === ' ' ? 'Space' : key.length === 1 ? key.toLowerCase() : key;
  const parts = [
    (ctrlKey || metaKey) && !throughAltGr ? 'Mod' : '',
    altKey && !throughAltGr ? 'Alt' : '',
    shiftKey && !sign ? 'Shift' : '',
    name,
  ];
  return parts.filter((part) => part !== '').join('+');
}

/** Which keys run which command, by command id. */
export type Bindings = ReadonlyMap<string, readonly string[]>;

export const DEFAULT_BINDINGS: Bindings = new Map(COMMANDS.map(({ id, keys }) => [id, keys]));

/** The command a key runs. */
export function commandOf(bindings: Bindings, name: string): CommandRow | undefined {
  return COMMANDS.find(({ id }) => bindings.get(id)?.includes(name));
}

const OWN_WITH_MOD = new Set(['Mod+z', 'Mod+Shift+z', 'Mod+y']);
/** Keys that browsers take for themselves (find as you type, menu, reload, full screen, developer tools, focus). */
const BROWSER = new Set([
  'Tab',
  'Shift+Tab',
  '/',
  "'",
  'Backspace',
  'F1',
  'F3',
  'F5',
  'F6',
  'F7',
  'F10',
  'F11',
  'F12',
  'ContextMenu',
  'Shift+F10',
]);
/** Keys that screen readers hold for their own commands. */
const READER = new Set(['Insert', 'CapsLock', 'ScrollLock', 'NumLock', 'Control', 'Alt', 'Meta', 'Shift']);

/** Why a key cannot be had, or nothing where it can. */
export function reservedReason(name: string): string | undefined {
  const last = name.split('+').at(-1) ?? name;
  if (READER.has(last) || READER.has(name)) return `${name} belongs to screen readers`;
  if (BROWSER.has(name)) return `${name} belongs to the browser`;
  if (name.startsWith('Mod+') && !OWN_WITH_MOD.has(name)) return `${name} belongs to the browser`;
  if (name.startsWith('Alt+')) return `${name} belongs to the browser or the system`;
  return undefined;
}

/**
 * Gives a command another key.
 *
 * @returns the new bindings, or why the key cannot be had
 */
export function remap(bindings: Bindings, id: string, name: string): Parsed<Bindings> {
  const taken = commandOf(bindings, name);
  const why = reservedReason(name);
  if (why) return fail(why, 'choose a letter, a digit or a sign');
  if (taken && taken.id !== id) return fail(`${name} is “${taken.title}”`, 'give that command another key first');
  return ok(new Map(bindings).set(id, [name]));
}

/** Bindings as they are kept between visits: only what differs from the beginning. */
export function printBindings(bindings: Bindings): string {
  const own = [...bindings].filter(([id, keys]) => keys.join(' ') !== DEFAULT_BINDINGS.get(id)?.join(' '));
  return JSON.stringify(Object.fromEntries(own));
}

/** Bindings as they were kept; what cannot be had any more goes back to the beginning. */
export function readBindings(text: string | null): Bindings {
  if (!text) return DEFAULT_BINDINGS;
  let kept: unknown;
  try {
    kept = JSON.parse(text);
  } catch {
    return DEFAULT_BINDINGS;
  }
  if (typeof kept !== 'object' || kept === null) return DEFAULT_BINDINGS;
  const own = new Map<string, readonly string[]>();
  for (const [id, keys] of Object.entries(kept)) {
    const fair =
      DEFAULT_BINDINGS.has(id) &&
      Array.isArray(keys) &&
      keys.every((key) => typeof key === 'string' && !reservedReason(key));
    if (fair) own.set(id, keys);
  }
  const bindings = new Map([...DEFAULT_BINDINGS, ...own]);
  return isClean(bindings) ? bindings : DEFAULT_BINDINGS;
}

/** True where no key runs two commands. */
export function isClean(bindings: Bindings): boolean {
  const all = [...bindings.values()].flat();
  return new Set(all).size === all.length;
}

const SPOKEN: Readonly<Record<string, string>> = {
  Space: 'space',
  ArrowLeft: '←',
  ArrowRight: '→',
  ArrowUp: '↑',
  ArrowDown: '↓',
  Escape: 'Esc',
  Delete: 'Del',
};

/** A key as people read it: "Shift + M", "Ctrl + Z". */
export function keyText(name: string): string {
  if (name === '+') return '+';
  return name
    .split(/\+(?=.)/)
    .map((part) => SPOKEN[part] ?? (part === 'Mod' ? 'Ctrl' : part.length === 1 ? part.toUpperCase() : part))
    .join(' + ');
}

/** A key as `aria-keyshortcuts` writes it (WAI-ARIA 1.2). */
export function ariaKey(name: string): string {
  return name.replace('Mod+', 'Control+');
}
