import { parseYaml } from '../read/index.ts';
import { fail, ok, type Parsed } from '../time/index.ts';
import { type Plain, setYaml, setYamlList } from '../write/index.ts';

/** One thing of a package against the content it is unpacked into: a file, a row, a tool, a word. */
export interface Compared {
  /** As it is named on the command line: `lessons/chain.mdx`, `specs/tarn-420.yaml#rear-axle-nut`. */
  readonly name: string;
  /** `own`: of the shop itself, such as its name, which no package changes. */
  readonly state: 'new' | 'same' | 'differs' | 'own';
  /** Both sides in a line each, where they differ and a line can say it. */
  readonly here?: string;
  readonly there?: string;
}

/** What to do where the two sides differ: take the package's, keep the shop's; nothing where nobody has said. */
export type Choose = (name: string) => 'take' | 'keep' | undefined;

export interface Merged {
  readonly compared: readonly Compared[];
  /** The text with everything new, and with what was chosen to be taken. */
  readonly text: string;
}

type Thing = Plain | undefined;
type Things = Readonly<Record<string, Thing>>;

/**
 * Merges a text of a package into the shop's text of the same name: tables by the ids of their rows, all else whole.
 *
 * @returns refused where one of the two cannot be read, or written safely
 */
export function mergeText(file: string, ours: string, theirs: string, choose: Choose): Parsed<Merged> {
  if (file === 'shop.yaml')
    return ok({ compared: [{ name: file, state: ours === theirs ? 'same' : 'own' }], text: ours });
  if (ours === theirs) return ok({ compared: [{ name: file, state: 'same' }], text: ours });
  if (file === 'kit.yaml') return mergeKit(file, ours, theirs, choose);
  if (file === 'words.yaml') return mergeWords(file, ours, theirs, choose);
  if (file.startsWith('specs/')) return mergeSpecs(file, ours, theirs, choose);
  return ok({ compared: [{ name: file, state: 'differs' }], text: choose(file) === 'take' ? theirs : ours });
}

/** Tools, parts, supplies and protective equipment by id. How many a shop has is its own affair. */
function mergeKit(file: string, ours: string, theirs: string, choose: Choose): Parsed<Merged> {
  const both = parseBoth(file, ours, theirs);
  if (!both.ok) return both;
  const merge = new Merge(file, ours, choose);
  for (const [group, things] of Object.entries(both.value.theirs))
    for (const [id, thing] of Object.entries(mapOf(things)))
      merge.one([group, id], own(own(both.value.ours, group), id), thing, withoutCount);
  return merge.done();
}

/** Rows by id, all rows of an id together: one more row for other years may contradict the one that is there. */
function mergeSpecs(file: string, ours: string, theirs: string, choose: Choose): Parsed<Merged> {
  const both = parseBoth(file, ours, theirs);
  if (!both.ok) return both;
  const merge = new Merge(file, ours, choose);
  merge.one(['machine'], both.value.ours.machine, both.value.theirs.machine);
  for (const [id, document] of Object.entries(mapOf(both.value.theirs.documents)))
    merge.one(['documents', id], own(both.value.ours.documents, id), document);
  merge.list('specs', 'id', both.value.ours.specs, both.value.theirs.specs);
  return merge.done();
}

function mergeWords(file: string, ours: string, theirs: string, choose: Choose): Parsed<Merged> {
  const both = parseBoth(file, ours, theirs);
  if (!both.ok) return both;
  const merge = new Merge(file, ours, choose);
  merge.list('words', 'say', both.value.ours.words, both.value.theirs.words);
  const skipped = listOf(both.value.ours.skip);
  const more = listOf(both.value.theirs.skip).filter((word) => !skipped.includes(word));
  if (more.length > 0) merge.write((text) => setYamlList(text, ['skip'], [...skipped, ...more] as Plain[]));
  return merge.done();
}

class Merge {
  readonly #file: string;
  readonly #choose: Choose;
  readonly #compared: Compared[] = [];
  #text: Parsed<string>;

  constructor(file: string, ours: string, choose: Choose) {
    this.#file = file;
    this.#choose = choose;
    this.#text = ok(ours);
  }

  write(change: (text: string) => Parsed<string>): void {
    if (this.#text.ok) this.#text = change(this.#text.value);
  }

  /** A value at a path. */
  one(path: readonly string[], ours: Thing, theirs: Thing, seen: (thing: Thing) => Thing = (thing) => thing): void {
    if (theirs === undefined || theirs === null) return;
    const name = `${this.#file}#${path.at(-1)}`;
    if (this.#compare(name, ours === undefined ? [] : [seen(ours)], [seen(theirs)]))
      this.write((text) => setYaml(text, [...path], theirs));
  }

  /** Entries of a list that say by one key which thing they are about. */
  list(path: string, key: string, ours: Thing, theirs: Thing): void {
    const idOf = (row: Thing) => String(mapOf(row)[key]);
    let wanted = listOf(ours);
    const ourRows = byKey(wanted, idOf);
    const added: Thing[] = [];
    let changed = false;
    for (const [id, there] of byKey(listOf(theirs), idOf)) {
      const here = ourRows.get(id) ?? [];
      if (!this.#compare(`${this.#file}#${id}`, here, there)) continue;
      changed = true;
      if (here.length === 0) {
        added.push(...there);
        continue;
      }
      const at = wanted.findIndex((row) => idOf(row) === id);
      wanted = wanted.filter((row) => idOf(row) !== id).toSpliced(at, 0, ...there);
    }
    if (changed) this.write((text) => setYamlList(text, [path], [...wanted, ...added] as Plain[]));
  }

  /** @returns true where the package's is to be written */
  #compare(name: string, here: readonly Thing[], there: readonly Thing[]): boolean {
    if (here.length === 0) {
      this.#compared.push({ name, state: 'new' });
      return true;
    }
    if (JSON.stringify(here.map(inOrder)) === JSON.stringify(there.map(inOrder))) {
      this.#compared.push({ name, state: 'same' });
      return false;
    }
    this.#compared.push({ name, state: 'differs', here: differing(here, there), there: differing(there, here) });
    return this.#choose(name) === 'take';
  }

  done(): Parsed<Merged> {
    if (!this.#text.ok) return fail(`${this.#file}: ${this.#text.problem}`, this.#text.help);
    return ok({ compared: this.#compared, text: this.#text.value });
  }
}

function parseBoth(file: string, ours: string, theirs: string): Parsed<{ ours: Things; theirs: Things }> {
  const read = (text: string) => {
    const document = parseYaml(text);
    if (document.errors.length > 0) return undefined;
    try {
      return mapOf(document.toJS());
    } catch {
      // An alias that names nothing, or stands for too much.
      return undefined;
    }
  };
  const [a, b] = [read(ours), read(theirs)];
  if (!a) return fail(`${file} of the shop is not sound YAML`, 'liftside check says where; mend it, then unpack again');
  if (!b) return fail(`${file} of the package is not sound YAML`, 'the package was not made by pack');
  return ok({ ours: a, theirs: b });
}

function mapOf(value: unknown): Things {
  return typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Things) : {};
}

function byKey(rows: readonly Thing[], keyOf: (row: Thing) => string): Map<string, Thing[]> {
  const groups = new Map<string, Thing[]>();
  for (const row of rows) {
    const key = keyOf(row);
    const group = groups.get(key);
    if (group) group.push(row);
    else groups.set(key, [row]);
  }
  return groups;
}

/** Never what every object has by nature: an id may be `constructor`. */
function own(value: unknown, key: string): Thing {
  const map = mapOf(value);
  return Object.hasOwn(map, key) ? map[key] : undefined;
}

function listOf(value: unknown): readonly Thing[] {
  return Array.isArray(value) ? value : [];
}

function withoutCount(thing: Thing): Thing {
  const { count: _, ...rest } = mapOf(thing);
  return rest as Plain;
}

/** Keys in one order, so that only what they say is compared. */
function inOrder(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(inOrder);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .toSorted()
      .map(([key, inner]) => [key, inOrder(inner)]),
  );
}

/** What one side says that the other does not, in a line. */
function differing(side: readonly Thing[], other: readonly Thing[]): string {
  return side
    .map((row, index) => {
      const against = mapOf(other[index]);
      const told = Object.entries(mapOf(row)).filter(
        ([key, value]) => JSON.stringify(inOrder(value)) !== JSON.stringify(inOrder(against[key])),
      );
      return told
        .map(([key, value]) => `${key}: ${typeof value === 'object' ? JSON.stringify(value) : value}`)
        .join(', ');
    })
    .filter((row) => row !== '')
    .join('; ');
}
