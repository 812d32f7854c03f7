import { fromMinutes, secondsOfDay } from '../../fit/index.ts';
import { placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';

const written = (minutes: string) => replaceIn('classes/saturday.yaml', 'minutes: [3, 5, 8]', `minutes: ${minutes}`);

/** So many times its likely time a block may take at most before somebody has to look at it. A judgement, no source. */
const MOST_TIMES_LIKELY = 4;
/** And longer than that by so many seconds: of a short block a wide estimate says little. */
const MOST_APART = 20 * 60;

export default rule({
  id: 'minutes-unlikely',
  severity: 'warning',
  why: 'The plan uses it: one wrong digit or unit moves every block that follows.',
  bad: written('[3, 5, 60]'),
  says: '11:29 "Welcome" as "talk" may take 60 min where 5 are likely',
  good: written('[3, 5, 8]'),

  *around({ classes }) {
    for (const shopClass of classes) {
      const slot = secondsOfDay(shopClass.slot);
      for (const [b, { title, treatments }] of shopClass.blocks.entries())
        for (const [t, { id, minutes, stations }] of treatments.entries()) {
          const stated = minutes ?? stations?.minutes;
          if (stated === undefined) continue;
          const { likely, most } = fromMinutes(stated);
          const whose = `"${title}" as "${id}"`;
          const found = judgement(likely, most, slot);
          if (!found) continue;
          yield {
            place: placeOf(
              shopClass,
              ...['blocks', b, 'treatments', t, ...(minutes === undefined ? ['stations'] : []), 'minutes'],
            ),
            message: `${whose} ${found}`,
            help:
              likely > slot && likely / 60 <= slot
                ? `write it in minutes: ${Math.round(likely / 360) / 10} min, if these are seconds`
                : 'write least, likely and most in minutes, as other classes have taken them',
          };
        }
    }
  },
});

function judgement(likely: number, most: number, slot: number): string | undefined {
  if (most === 0) return 'takes no time at all';
  if (likely > slot && slot > 0) return `takes ${likely / 60} min, longer than the whole slot`;
  if (most > MOST_TIMES_LIKELY * likely && most - likely > MOST_APART)
    return `may take ${most / 60} min where ${likely / 60} are likely`;
  return undefined;
}
