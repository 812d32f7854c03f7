import { CONTENT_FILES, parseYaml } from '../read/index.ts';
import { fail, groupBy, ok, type Parsed } from '../time/index.ts';
import { type Plain, setYaml, setYamlList } from '../write/index.ts';
import { differing, equal, listOf, mapOf, own, type Thing, type Things } from './things.ts';

/** One thing of a package against the content it is unpacked into: a file, a row, a tool, a word. */
export interface Compared {
  /** As it is named on the command line: `lessons/chain.mdx`, `specs/tarn-420.yaml#rear-axle-nut`. */
  readonly name: string;
  /**
   * `own`: of the shop itself, such as its name, which no package changes. `changed`: by the publisher alone, and taken;
   * only where an earlier version of both is known.
   */
  readonly state: 'new' | 'same' | 'changed' | 'differs' | 'own';
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

/** What is said of one thing by each side; nothing where a side does not have it. A spec id may have several rows. */
export interface Sides {
  /** An earlier version that both come from; empty where none is known. */
  readonly base: readonly Thing[];
  readonly here: readonly Thing[];
  readonly there: readonly Thing[];
}

export interface Decision extends Omit<Compared, 'name'> {
  /** What is to stand there from now on; left out where it stays as it is. */
  readonly write?: readonly Thing[];
}

/** What becomes of one thing. @param part of the file it stands in: `specs`, `tools`, `words`, … */
export type Decide = (name: string, sides: Sides, part: string) => Decision;

/** Two versions of a text, and the earlier one both come from where it is known. */
export interface Versions {
  readonly ours: string;
  readonly theirs: string;
  readonly base?: string | undefined;
  /** What theirs comes in, for messages: "the package". */
  readonly from: string;
}

/** Without an earlier version: what is new is taken, what differs is a choice. */
export function decideByChoice(choose: Choose): Decide {
  return (name, { here, there }) => {
    if (here.length === 0) return { state: 'new', write: there };
    if (there.length === 0 || equal(here, there)) return { state: 'same' };
    return {
      ...{ state: 'differs', here: differing(here, there), there: differing(there, here) },
      ...(choose(name) === 'take' ? { write: there } : {}),
    };
  };
}

/** True for a text that is merged by the ids of what stands in it. */
export function isTable(file: string): boolean {
  return file === 'kit.yaml' || isWords(file) || file.startsWith('specs/');
}

/** True for what people call things, in any language. */
function isWords(file: string): boolean {
  return file === CONTENT_FILES.words || CONTENT_FILES.wordsIn.test(file);
}

/**
 * Merges a text of a package into the shop's text of the same name: tables by the ids of their rows, all else whole.
 *
 * @returns refused where one of the two cannot be read, or written safely
 */
export function mergeText(file: string, ours: string, theirs: string, choose: Choose): Parsed<Merged> {
  if (file === 'shop.yaml')
    return ok({ compared: [{ name: file, state: ours === theirs ? 'same' : 'own' }], text: ours });
  if (ours === theirs) return ok({ compared: [{ name: file, state: 'same' }], text: ours });
  if (isTable(file)) return mergeTable(file, { ours, theirs, from: 'the package' }, decideByChoice(choose));
  return ok({ compared: [{ name: file, state: 'differs' }], text: choose(file) === 'take' ? theirs : ours });
}

/**
 * Merges a table by the ids of what stands in it: spec rows (all rows of an id together, since one more row for other
 * years may contradict the one that is there), documents, tools and the like, words.
 *
 * @returns refused where one of the texts cannot be read, or written safely
 */
export function mergeTable(file: string, versions: Versions, decide: Decide): Parsed<Merged> {
  const parsed = parseAll(file, versions);
  if (!parsed.ok) return parsed;
  const merge = new Merge(file, versions.ours, decide);
  if (file === 'kit.yaml') mergeKit(merge, parsed.value);
  else if (isWords(file)) mergeWords(merge, parsed.value);
  else mergeSpecs(merge, parsed.value);
  return merge.done();
}

interface ParsedVersions {
  readonly ours: Things;
  readonly theirs: Things;
  readonly base: Things;
}

/** How many of a thing a shop has is its own affair. */
function mergeKit(merge: Merge, { ours, theirs, base }: ParsedVersions): void {
  for (const [group, things] of Object.entries(theirs))
    for (const [id, thing] of Object.entries(mapOf(things)))
      merge.one([group, id], own(own(ours, group), id), thing, own(own(base, group), id), withoutCount);
}

function mergeSpecs(merge: Merge, { ours, theirs, base }: ParsedVersions): void {
  merge.one(['machine'], ours.machine, theirs.machine, base.machine);
  for (const [id, document] of Object.entries(mapOf(theirs.documents)))
    merge.one(['documents', id], own(ours.documents, id), document, own(base.documents, id));
  merge.list('specs', 'id', { ours: ours.specs, theirs: theirs.specs, base: base.specs });
}

function mergeWords(merge: Merge, { ours, theirs, base }: ParsedVersions): void {
  merge.list('words', 'say', { ours: ours.words, theirs: theirs.words, base: base.words });
  const skipped = listOf(ours.skip);
  const more = listOf(theirs.skip).filter((word) => !skipped.includes(word));
  if (more.length > 0) merge.write((text) => setYamlList(text, ['skip'], [...skipped, ...more] as Plain[]));
}

class Merge {
  readonly #file: string;
  readonly #decide: Decide;
  readonly #compared: Compared[] = [];
  #text: Parsed<string>;

  constructor(file: string, ours: string, decide: Decide) {
    this.#file = file;
    this.#decide = decide;
    this.#text = ok(ours);
  }

  write(change: (text: string) => Parsed<string>): void {
    if (this.#text.ok) this.#text = change(this.#text.value);
  }

  /** A value at a path. */
  one(
    path: readonly string[],
    ours: Thing,
    theirs: Thing,
    base: Thing,
    seen: (thing: Thing) => Thing = (thing) => thing,
  ): void {
    if (theirs === undefined || theirs === null) return;
    const side = (thing: Thing) => (thing === undefined || thing === null ? [] : [seen(thing)]);
    const written = this.#decideOn(
      path.at(-1) ?? '',
      { base: side(base), here: side(ours), there: side(theirs) },
      path[0] ?? '',
    );
    if (!written) return;
    const [wanted] = written;
    // What is new comes with its count, which says nothing of this shop yet; what changes keeps the shop's own.
    const count = own(ours ?? theirs, 'count');
    const whole = count === undefined || seen(theirs) === theirs ? wanted : { ...mapOf(wanted), count };
    this.write((text) => setYaml(text, [...path], whole as Plain));
  }

  /** Entries of a list that say by one key which thing they are about. */
  list(path: string, key: string, { ours, theirs, base }: { ours: Thing; theirs: Thing; base: Thing }): void {
    const idOf = (row: Thing) => String(mapOf(row)[key]);
    let wanted = listOf(ours);
    const [ourRows, theirRows, baseRows] = [ours, theirs, base].map((rows) => groupBy(listOf(rows), idOf));
    const added: Thing[] = [];
    let changed = false;
    for (const id of new Set([...(theirRows?.keys() ?? []), ...(baseRows?.keys() ?? [])])) {
      const sides = { base: baseRows?.get(id) ?? [], here: ourRows?.get(id) ?? [], there: theirRows?.get(id) ?? [] };
      const written = this.#decideOn(id, sides, path);
      if (!written) continue;
      changed = true;
      if (sides.here.length === 0) {
        added.push(...written);
        continue;
      }
      const at = wanted.findIndex((row) => idOf(row) === id);
      wanted = wanted.filter((row) => idOf(row) !== id).toSpliced(at, 0, ...written);
    }
    if (changed) this.write((text) => setYamlList(text, [path], [...wanted, ...added] as Plain[]));
  }

  #decideOn(id: string, sides: Sides, part: string): readonly Thing[] | undefined {
    const name = `${this.#file}#${id}`;
    const { write, ...compared } = this.#decide(name, sides, part);
    this.#compared.push({ name, ...compared });
    return write;
  }

  done(): Parsed<Merged> {
    if (!this.#text.ok) return fail(`${this.#file}: ${this.#text.problem}`, this.#text.help);
    return ok({ compared: this.#compared, text: this.#text.value });
  }
}

function parseAll(file: string, { ours, theirs, base, from }: Versions): Parsed<ParsedVersions> {
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
  const [a, b, c] = [read(ours), read(theirs), base === undefined ? {} : read(base)];
  if (!a) return fail(`${file} of the shop is not sound YAML`, 'liftside check says where; mend it, then do it again');
  if (!b || !c) return fail(`${file} of ${from} is not sound YAML`, 'take it afresh from where it came');
  return ok({ ours: a, theirs: b, base: c });
}

function withoutCount(thing: Thing): Thing {
  const { count: _, ...rest } = mapOf(thing);
  return rest as Plain;
}
