import { ENGLISH, type Locale, wording } from '../locale/index.ts';
import { type Collections, partOfRow, type SharedCollection, type Shop, type Spec } from '../model/index.ts';

/** Where a row comes from that a collection shares. */
export interface Provenance {
  readonly collection: SharedCollection;
  /** The row as its publisher has signed it. */
  readonly published: Spec;
  /** `own`: this shop has put another value over it. */
  readonly value: 'shared' | 'own';
  /**
   * Who has compared it with its source: somebody here; the publisher, where it is known whom that is; or nobody who
   * counts, and then it is shown as unchecked.
   */
  readonly compared: 'here' | 'there' | 'unchecked';
}

interface Candidate {
  readonly collection: SharedCollection;
  readonly published: Spec;
}

/** Pages ask for the provenance of every value they show. */
const known = new WeakMap<Collections, ReadonlyMap<string, readonly Candidate[]>>();

/** Rows of all collections in use, by machine and id. */
function publishedRows(collections: Collections): ReadonlyMap<string, readonly Candidate[]> {
  const found = known.get(collections);
  if (found) return found;
  const rows = new Map<string, Candidate[]>();
  for (const collection of collections.kept)
    for (const { id, specs } of collection.machines)
      for (const published of specs) {
        const name = `${id}#${published.id}`;
        const others = rows.get(name);
        if (others) others.push({ collection, published });
        else rows.set(name, [{ collection, published }]);
      }
  known.set(collections, rows);
  return rows;
}

/** From whom a shop has a row; nothing for a row of its own. @param machineId id of its machine */
export function provenanceOf(
  { collections }: Pick<Shop, 'collections'>,
  machineId: string,
  row: Spec,
): Provenance | undefined {
  const candidates = publishedRows(collections).get(`${machineId}#${row.id}`) ?? [];
  const [nearest] = [sameValue, sameMachines]
    .map((same) => candidates.find(({ published }) => same(published, row)))
    .filter(Boolean);
  const found = nearest ?? candidates[0];
  if (!found) return undefined;
  const value = sameValue(found.published, row) ? 'shared' : 'own';
  return { ...found, value, compared: comparedBy(found.collection, found.published, row, value) };
}

function comparedBy(
  { signer }: SharedCollection,
  published: Spec,
  { written }: Spec,
  value: Provenance['value'],
): Provenance['compared'] {
  if (written.checkedBy === undefined || written.checkedOn === undefined) return 'unchecked';
  const theirs = written.checkedBy === published.written.checkedBy && written.checkedOn === published.written.checkedOn;
  if (!theirs) return 'here';
  // Whoever compared the published value has not compared the one that was put over it.
  return signer === 'known' && value === 'shared' ? 'there' : 'unchecked';
}

function sameMachines(a: Spec, b: Spec): boolean {
  return a.years.from === b.years.from && a.years.to === b.years.to;
}

function sameValue(a: Spec, b: Spec): boolean {
  return valueText(a) === valueText(b);
}

function valueText({ written }: Spec): string {
  return JSON.stringify(
    Object.entries(written)
      .filter(([key]) => partOfRow(key) === 'value')
      .toSorted(([a], [b]) => (a < b ? -1 : 1)),
  );
}

/** A row's provenance in a few words, for beside its source; nothing where its value is the shop's own. */
export function provenanceInWords(
  { collection, value, compared }: Provenance,
  locale: Locale = ENGLISH,
): string | undefined {
  if (value !== 'shared') return undefined;
  const { publisher, name, version } = collection;
  const { t } = wording(locale);
  return compared === 'unchecked'
    ? t('shared by {publisher} ({name} {version}), unchecked', { publisher, name, version })
    : t('shared by {publisher} ({name} {version})', { publisher, name, version });
}

/** Who has compared a shared row with its source, and when, in a sentence. */
export function comparisonInWords(
  { collection, value, compared }: Provenance,
  { written }: Spec,
  locale: Locale = ENGLISH,
): string {
  const { t } = wording(locale);
  const { publisher, name, version, signer } = collection;
  if (written.withdrawn)
    return value === 'shared'
      ? t('Withdrawn by {publisher} ({name} {version}).', { publisher, name, version })
      : t('Withdrawn here.');
  const by = `${written.checkedBy ?? ''}, ${written.checkedOn ?? ''}`;
  if (compared === 'here') return t('Compared here by {by}.', { by });
  if (compared === 'there') return t('Compared by {by}, of {publisher}.', { by, publisher });
  if (value === 'own') return t('Unchecked: this shop’s own value over that of {name} {version}.', { name, version });
  return signer === 'known'
    ? t('Unchecked: nobody has compared it with its source.')
    : t('Unchecked: nobody here has compared it, nor the key of {publisher}.', { publisher });
}
