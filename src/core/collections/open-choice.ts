import { isMap, isScalar, isSeq } from 'yaml';
import type { Diagnostic, Place } from '../model/index.ts';
import { startOf } from '../model/index.ts';
import type { Compared } from '../pack/index.ts';
import { Points, parseYaml, readShop } from '../read/index.ts';

interface Setting {
  readonly ours: ReadonlyMap<string, string>;
  readonly theirs: ReadonlyMap<string, string>;
  /** Name and version of the collection. */
  readonly from: string;
  /** Folder of the content in which it is kept. */
  readonly kept: string;
}

const WHY = {
  value: 'A value that changes without anybody comparing it with its source may hurt the people who work from it.',
  collision: 'Both sides have changed it, and only a person knows which of them is right here.',
};

/** A choice that is left to people, as a finding: both texts, both places. */
export function openChoice({ name, here, there }: Compared, setting: Setting, isValue: boolean): Diagnostic {
  const [file = '', id] = name.split('#');
  const words =
    here === undefined && there === undefined
      ? 'both sides have changed it'
      : `here ${here || '(nothing more)'} · there ${there || '(nothing more)'}`;
  return {
    rule: isValue ? 'shared-value-changed' : 'shared-text-collides',
    severity: 'error',
    place: placeIn(file, id, setting.ours.get(file)),
    message: `${id ?? file}: ${words}`,
    why: isValue ? WHY.value : WHY.collision,
    help: `${isValue ? 'compare it with its source, then ' : ''}--take ${name} for theirs, --keep ${name} for what is here${isValue ? '; who has compared a value says so with --by ROLE' : ''}`,
    see: {
      place: placeIn(file, id, setting.theirs.get(file), `${setting.kept}/${file}`),
      note: `as in ${setting.from}`,
    },
  };
}

/** Where a thing of a file stands: a row, tool or word by its id, a step by its heading. */
function placeIn(file: string, id: string | undefined, text: string | undefined, shownAs = file): Place {
  if (text === undefined || id === undefined) return startOf(shownAs);
  if (file.endsWith('.mdx')) {
    const { shop } = readShop(new Map([[file, text]]), () => ({ state: 'picture' }));
    const passages = shop.lessons.flatMap(({ chapters }) => chapters.flatMap((each) => [each, ...each.steps]));
    const at = passages.find((each) => each.id === id)?.place ?? startOf(file);
    return { ...at, file: shownAs };
  }
  const range = rangeOf(parseYaml(text).contents, id);
  return range ? new Points(shownAs, text).place(...range) : startOf(shownAs);
}

/** The stretch of an entry with this key, or with this id in a list; offsets. */
function rangeOf(node: unknown, id: string): [number, number] | undefined {
  if (isMap(node))
    for (const { key, value } of node.items) {
      const range = isScalar(key) && key.value === id ? key.range : undefined;
      const found: [number, number] | undefined = range ? [range[0], range[1]] : rangeOf(value, id);
      if (found) return found;
    }
  if (isSeq(node))
    for (const item of node.items) {
      const named = isMap(item) && (item.get('id') === id || item.get('say') === id);
      if (named && item.range) return [item.range[0], item.range[1]];
    }
  return undefined;
}
