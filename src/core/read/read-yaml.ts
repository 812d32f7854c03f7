import { isMap, isScalar, isSeq, type Node, type ParsedNode } from 'yaml';
import type { z } from 'zod';
import type { Diagnostic, Origin, Place } from '../model/index.ts';
import { tell } from './faults.ts';
import { placeholdersIn } from './placeholders.ts';
import type { Points } from './points.ts';
import { salvage, type YamlPlaces } from './salvage.ts';
import { valuesInQuotes, withoutQuotes } from './typographic-quotes.ts';
import { parseYaml } from './yaml-document.ts';
import { meaningFaults, syntaxFaults } from './yaml-faults.ts';

/** A YAML text as read: the value where enough of it is sound, and every problem. */
export interface YamlRead<T> {
  readonly value?: T;
  readonly origin: Origin;
  readonly diagnostics: readonly Diagnostic[];
  /** Ids of list entries and records that had to be left out because something in them is wrong. */
  readonly broken: readonly string[];
}

/**
 * A YAML text held against its schema. Every problem is told; what is wrong is left out, the rest is kept.
 *
 * @param source the YAML text alone
 * @param points of the file it stands in
 * @param offset where the YAML text starts in that file
 * @param what the thing, for messages: "a recording"
 */
export function readYaml<T>(
  source: string,
  points: Points,
  offset: number,
  schema: z.ZodType<T>,
  what: string,
): YamlRead<T> {
  const doc = parseYaml(source);
  const whole = points.place(offset, offset);
  const places: YamlPlaces = { values: new Map(), keys: new Map() };
  const origin: Origin = { place: whole, places: places.values };
  const faults = doc.errors.length > 0 ? syntaxFaults(doc.errors) : meaningFaults(doc);
  if (faults.length > 0) {
    const diagnostics = faults.map(({ start, end, message, help }) =>
      tell('yaml-syntax', points.place(offset + start, offset + end), message, help),
    );
    return { origin, diagnostics, broken: [] };
  }
  if (doc.contents) collect(doc.contents, '', points, offset, places);
  // How often an alias may be written out has been looked at.
  const raw: unknown = doc.contents ? doc.toJS({ maxAliasCount: -1 }) : {};
  if (!doc.contents && !schema.safeParse(raw).success)
    return {
      origin,
      diagnostics: [
        tell(
          'file-empty',
          whole,
          `there is nothing here, where ${what} should stand`,
          'write it, or take the file away',
        ),
      ],
      broken: [],
    };
  const placeOf = (path: readonly (string | number)[]) => places.values.get(path.join('/')) ?? whole;
  const quoted = [...valuesInQuotes(raw, placeOf)];
  // Told once; whatever goes by the value finds the one that is meant.
  const { value, diagnostics, broken } = salvage(withoutQuotes(raw), schema, places, whole, what);
  const told = new Set(quoted.map(({ place }) => place.start.offset));
  const others = diagnostics.filter(({ rule, place }) => rule !== 'value-wrong' || !told.has(place.start.offset));
  const left = placeholdersIn(raw, placeOf);
  return {
    origin,
    diagnostics: [...left, ...others, ...quoted],
    broken,
    ...(value === undefined ? {} : { value }),
  };
}

function collect(node: ParsedNode | Node, path: string, points: Points, offset: number, places: YamlPlaces): void {
  if (node.range) places.values.set(path, points.place(offset + node.range[0], offset + node.range[1]));
  const below = (key: string | number) => (path === '' ? String(key) : `${path}/${key}`);
  if (isMap<ParsedNode, ParsedNode | null>(node)) {
    for (const { key, value } of node.items) {
      const name = isScalar(key) ? String(key.value) : String(key);
      const at = points.place(offset + key.range[0], offset + key.range[1]);
      places.keys.set(below(name), at);
      if (value && value.range[0] < value.range[1]) collect(value, below(name), points, offset, places);
      else places.values.set(below(name), at);
    }
  } else if (isSeq<ParsedNode>(node)) {
    for (const [index, item] of node.items.entries()) collect(item, below(index), points, offset, places);
  }
}

/** The origins of the entries of a list inside a read thing, by their index. */
export function originsIn(origin: Origin, list: string): (index: number) => Origin {
  const places = new Map<string, Map<string, Place>>();
  const before = `${list}/`;
  for (const [path, place] of origin.places) {
    const end = path.startsWith(before) ? path.indexOf('/', before.length) : -1;
    if (end === -1) continue;
    const entry = path.slice(0, end);
    const own = places.get(entry) ?? new Map<string, Place>();
    places.set(entry, own.set(path.slice(end + 1), place));
  }
  return (index) => {
    const entry = `${before}${index}`;
    return { place: origin.places.get(entry) ?? origin.place, places: places.get(entry) ?? new Map() };
  };
}
