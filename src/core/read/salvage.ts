import { z } from 'zod';
import type { Diagnostic, Place } from '../model/index.ts';
import { tell } from './faults.ts';
import { didYouMean } from './nearest.ts';
import { isPlaceholder } from './placeholders.ts';
import { halfNumberHelp, slipOf, typeCure } from './value-cures.ts';

/** Places of values and of the keys they stand under, by path. */
export interface YamlPlaces {
  readonly values: Map<string, Place>;
  readonly keys: Map<string, Place>;
}

type Path = readonly (string | number)[];
type Issue = z.core.$ZodIssue;

/** Enough rounds for a fault inside an entry inside an entry; each round removes something. */
const ROUNDS = 200;

/**
 * Holds a raw value against a schema, tells every problem, leaves out what is wrong and keeps the rest.
 * An entry of a list or record that lacks something it needs is left out whole, and named in `broken`.
 */
export function salvage<T>(
  raw: unknown,
  schema: z.ZodType<T>,
  places: YamlPlaces,
  whole: Place,
  what: string,
): { value?: T; diagnostics: Diagnostic[]; broken: string[] } {
  const first = schema.safeParse(raw);
  if (first.success) return { value: first.data, diagnostics: [], broken: [] };

  const json = z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any' }) as JsonSchema;
  const diagnostics = first.error.issues.flatMap((issue) => describeIssue(issue, raw, json, places, whole, what));
  const broken: string[] = [];
  const copy: unknown = JSON.parse(JSON.stringify(raw));
  let issues: readonly Issue[] = first.error.issues;
  for (let round = 0; round < ROUNDS; round++) {
    const gone = new Set<string>();
    // From the back, so that list positions still to be removed stay right.
    for (const issue of issues.toReversed()) {
      const path = issue.path.map((part) => (typeof part === 'number' ? part : String(part)));
      if (path.some((_, depth) => gone.has(path.slice(0, depth + 1).join('/')))) continue;
      const halves = issue.code === 'unrecognized_keys' && issue.keys.some((key) => isHalfNumber(copy, [...path, key]));
      if (issue.code === 'unrecognized_keys' && !halves) {
        for (const key of issue.keys) removeAt(copy, [...path, key]);
        continue;
      }
      const missing = valueAt(copy, path) === undefined;
      const target = rowRound(path) ?? (missing || halves ? entryRound(copy, path) : path);
      if (!target || target.length === 0) return { diagnostics, broken };
      if (missing || halves || target.length < path.length || Array.isArray(valueAt(copy, target.slice(0, -1))))
        broken.push(nameOf(copy, target));
      removeAt(copy, target);
      gone.add(target.join('/'));
    }
    const again = schema.safeParse(copy);
    if (again.success) return { value: again.data, diagnostics, broken };
    issues = again.error.issues;
  }
  return { diagnostics, broken };
}

/** Of a spec or a tool each value says what the others mean: with one wrong, nothing of it is used. */
function rowRound([list, entry]: Path): Path | undefined {
  return (list === 'specs' || list === 'tools') && entry !== undefined ? [list, entry] : undefined;
}

/** True for what a comma within braces makes of `0,5`: a key 5 without a value. */
function isHalfNumber(root: unknown, path: Path): boolean {
  return /^\d+$/.test(String(path.at(-1))) && valueAt(root, path) === null;
}

interface JsonSchema {
  readonly properties?: Readonly<Record<string, JsonSchema>>;
  readonly additionalProperties?: JsonSchema | boolean;
  readonly items?: JsonSchema;
  readonly anyOf?: readonly JsonSchema[];
  readonly enum?: readonly unknown[];
  readonly $ref?: string;
  readonly $defs?: Readonly<Record<string, JsonSchema>>;
}

/** Keys that a schema knows at a path. */
function knownKeys(schema: JsonSchema, path: Path): string[] {
  const definition = schema.$ref?.split('/').at(-1);
  let here: JsonSchema | undefined = definition === undefined ? schema : schema.$defs?.[definition];
  for (const part of path) {
    const next: JsonSchema | boolean | undefined =
      typeof part === 'number' ? here?.items : (here?.properties?.[part] ?? here?.additionalProperties);
    here = typeof next === 'object' ? next : undefined;
  }
  return Object.keys(here?.properties ?? {});
}

function describeIssue(
  issue: Issue,
  raw: unknown,
  json: JsonSchema,
  places: YamlPlaces,
  whole: Place,
  what: string,
): Diagnostic[] {
  const path = issue.path.map((part) => (typeof part === 'number' ? part : String(part)));
  const place = placeAt(places.values, path, whole);
  const name = path.filter((part) => typeof part === 'string').at(-1);
  if (issue.code === 'unrecognized_keys') {
    const known = knownKeys(json, path);
    const holder = path.length === 0 ? what : `"${name ?? path.join('.')}"`;
    return issue.keys.map((key) => {
      const at = places.keys.get([...path, key].join('/')) ?? place;
      if (isHalfNumber(raw, [...path, key])) {
        // Of `20,000` the key is 0: how many figures were written says its place.
        const figures = key.padStart(at.end.offset - at.start.offset, '0');
        return tell('value-wrong', at, `a comma stands before ${figures} within a number`, halfNumberHelp(figures));
      }
      return tell('key-unknown', at, `"${key}" is not a key of ${holder}`, didYouMean(key, known));
    });
  }
  const value = valueAt(raw, path);
  if (value === undefined && path.length > 0)
    return [
      tell(
        'key-missing',
        placeAt(places.values, path.slice(0, -1), whole),
        `"${name}" is missing`,
        `write ${name}: below the keys beside it`,
      ),
    ];
  // The reader has told it.
  if (isPlaceholder(value)) return [];
  const shown =
    value === null
      ? 'nothing'
      : typeof value === 'object'
        ? Array.isArray(value)
          ? 'a list'
          : 'a group of keys'
        : JSON.stringify(value);
  if (issue.code === 'invalid_value' && !(typeof value === 'string' && slipOf(value))) {
    const allowed = issue.values.map(String);
    return [
      tell(
        'value-wrong',
        place,
        `${name}: ${shown} is none of ${list(allowed)}`,
        didYouMean(String(value), allowed, `write one of ${list(allowed)}`),
      ),
    ];
  }
  const cure = (typeof value === 'string' ? slipOf(value) : undefined) ?? typeCure(issue, value);
  if (cure) return [tell('value-wrong', place, `${name ?? what}: ${shown} ${cure.message}`, cure.help)];
  const message = issue.message.charAt(0).toLowerCase() + issue.message.slice(1);
  return [
    tell(
      'value-wrong',
      place,
      `${name ?? what}: ${shown} cannot be used here: ${message}`,
      'the reference page of this file lists what each key takes',
    ),
  ];
}

function list(names: readonly string[]): string {
  return names.length > 14 ? `${names.slice(0, 14).join(', ')}, …` : names.join(', ');
}

function placeAt(places: ReadonlyMap<string, Place>, path: Path, whole: Place): Place {
  for (let depth = path.length; depth > 0; depth--) {
    const found = places.get(path.slice(0, depth).join('/'));
    if (found) return found;
  }
  return whole;
}

function isGroup(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null;
}

function valueAt(root: unknown, path: Path): unknown {
  let here = root;
  for (const part of path) here = isGroup(here) ? here[String(part)] : undefined;
  return here;
}

function removeAt(root: unknown, path: Path): boolean {
  const holder = valueAt(root, path.slice(0, -1));
  const last = path.at(-1);
  if (last === undefined || !isGroup(holder) || !(String(last) in holder)) return false;
  if (Array.isArray(holder)) holder.splice(Number(last), 1);
  else delete holder[String(last)];
  return true;
}

/** The nearest thing round a missing value that can be left out: an entry of a list, or of a group. */
function entryRound(root: unknown, path: Path): Path | undefined {
  for (let depth = path.length - 1; depth > 0; depth--) {
    const holder = valueAt(root, path.slice(0, depth - 1));
    if (Array.isArray(holder) || (isGroup(holder) && depth > 1)) return path.slice(0, depth);
  }
  return undefined;
}

/** What a left-out entry is called elsewhere: its id, otherwise the key it stands under. */
function nameOf(root: unknown, path: Path): string {
  const value = valueAt(root, path);
  return isGroup(value) && typeof value.id === 'string' ? value.id : String(path.at(-1));
}
