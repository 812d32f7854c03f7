import { type Place, placeOf, type Read } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { replaceIn, SOUND } from '../sample.ts';

/** What a starting file holds where somebody has to write; no sound content has it. */
const PLACEHOLDER = 'FILL IN';

export default rule({
  id: 'placeholder-left',
  severity: 'error',
  why: 'What a starting file holds is nobody’s word: it would be shown as if somebody had written it.',
  bad: replaceIn('specs/tarn-420.yaml', 'Service manual (invented)', 'FILL IN title'),
  says: '6:19 "FILL IN title" is left from the starting file',
  good: SOUND,

  *check({ info, kit, machines, recordings, lessons, classes }) {
    for (const read of [info, kit, ...machines, ...recordings, ...classes])
      yield* inRead(read, 'written' in read ? read.written : read);
    for (const { chapters: _, ...front } of lessons) yield* inRead(front, front);
  },
});

function* inRead(read: Read, value: unknown): Generator<{ place: Place; message: string; help: string }> {
  for (const { path, text } of texts(value, []))
    if (text.includes(PLACEHOLDER))
      yield {
        place: placeOf(read, ...path),
        message: `"${text}" is left from the starting file`,
        help: 'write what holds for your own shop, from the source itself',
      };
}

type Path = readonly (string | number)[];

/** Every text below a value, with the keys that lead to it. */
function* texts(value: unknown, path: Path): Generator<{ path: Path; text: string }> {
  if (typeof value === 'string') yield { path, text: value };
  else if (Array.isArray(value)) for (const [index, each] of value.entries()) yield* texts(each, [...path, index]);
  else if (typeof value === 'object' && value !== null && !(value instanceof Map) && !(value instanceof Set))
    for (const [key, each] of Object.entries(value))
      if (key !== 'origin' && key !== 'body' && key !== 'opening' && key !== 'notes' && key !== 'intro')
        yield* texts(each, [...path, key]);
}
