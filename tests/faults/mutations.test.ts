import fc from 'fast-check';
import { afterAll, describe, expect, test } from 'vitest';
import { CHANGED_FORMATS, readContent } from './formats.ts';
import { mutated, mutations } from './mutate.ts';
import { RICH_SHOP } from './rich-shop.ts';

/** Changes to each format that `npm run mutations` asks for; nothing in `npm test`, which takes a quick share. */
const ASKED = process.env.LIFTSIDE_MUTATIONS;
/** A whole shop is read for each change to its content, so there are fewer of them. */
const QUICK = { content: 25, other: 100 };
const SEED = Number(process.env.LIFTSIDE_SEED ?? 20_261_127);

const counted = new Map<string, number>();
afterAll(() => {
  const total = [...counted.values()].reduce((sum, runs) => sum + runs, 0);
  const each = [...counted].map(([name, runs]) => `  ${String(runs).padStart(6)}  ${name}`);
  console.log(
    `${total} changed texts read, seed ${SEED}; none was told as a fault of the program:\n${each.join('\n')}`,
  );
});

test('what is changed is sound before', () => {
  for (const file of Object.keys(RICH_SHOP)) {
    const errors = readContent(file, RICH_SHOP[file] ?? '').filter(({ severity }) => severity === 'error');
    expect(errors.map(({ rule, place, message }) => `${rule} ${place.file}:${place.start.line} ${message}`)).toEqual(
      [],
    );
  }
});

describe('no text is ever told as a fault of the program', () => {
  test.each(CHANGED_FORMATS.map((format) => [format.name, format] as const))(
    '%s',
    (name, { sound, data, ofShop, read }) => {
      let runs = 0;
      fc.assert(
        fc.property(mutations, (changes) => {
          runs++;
          read(mutated(sound, changes, data));
        }),
        { seed: SEED, numRuns: ASKED ? Number(ASKED) : QUICK[ofShop ? 'content' : 'other'], verbose: 0 },
      );
      counted.set(name, runs);
    },
    ASKED ? 3_600_000 : 180_000,
  );
});
