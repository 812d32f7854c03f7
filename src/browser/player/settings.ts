/** What a viewer has chosen, kept in this browser. Where storage is closed off, it holds for this page. */
const names = ['keysEverywhere', 'follow', 'largerText'] as const;
type Name = (typeof names)[number];
const chosen: Record<Name, boolean> = { keysEverywhere: false, follow: true, largerText: false };

function key(name: Name): string {
  return `liftside.${name}`;
}

for (const name of names) {
  try {
    const kept = localStorage.getItem(key(name));
    if (kept !== null) chosen[name] = kept === 'yes';
  } catch {
    // Storage is closed off; the defaults hold.
  }
}

export const settings: Readonly<Record<Name, boolean>> = chosen;

export function isSetting(name: string | undefined): name is Name {
  return names.some((each) => each === name);
}

export function choose(name: Name, value: boolean): void {
  chosen[name] = value;
  try {
    localStorage.setItem(key(name), value ? 'yes' : 'no');
  } catch {
    // Storage is closed off.
  }
}
