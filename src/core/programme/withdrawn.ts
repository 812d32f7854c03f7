import { agrees, findQuantities, type HeardQuantity, isComparable } from '../heard/index.ts';
import type { Correction, Shop, Spec } from '../model/index.ts';
import { partsOf } from '../spec/index.ts';
import type { Compared, QuantityInWords } from './in-words.ts';
import { wordsOfPassages } from './passage-words.ts';
import { rowsOfLesson } from './rows-for.ts';
import { rowsMeant } from './rows-meant.ts';

/** A withdrawn value that a recording still says or shows. */
export interface WithdrawnSaid extends QuantityInWords {
  readonly row: Spec;
}

/** A row as it was before it was withdrawn: what speech may still mean by it. Any other row as it is. */
export function beforeWithdrawal(row: Spec): Spec {
  const quantity = row.written.withdrawn ? row.former[0]?.quantity : row.quantity;
  return quantity ? { ...row, quantity } : row;
}

/** Every withdrawn value that is said or shown while a lesson is on, in the order of lessons and recording time. */
export function withdrawnSaid(shop: Compared): readonly WithdrawnSaid[] {
  const { hear = findQuantities } = shop;
  return shop.lessons.flatMap((lesson) => {
    const recording = shop.recordings.find(({ id }) => id === lesson.recording);
    const machine = shop.machines.find(({ id }) => id === lesson.machine);
    if (!recording || !machine?.specs.some(({ written }) => written.withdrawn)) return [];
    const rows = rowsOfLesson(machine, lesson).map(beforeWithdrawal);
    return wordsOfPassages(lesson, recording)
      .flatMap(({ chapter, passage, how, text, parts }) => {
        const cited = new Set(passage.cites.map(({ spec }) => spec));
        return hear(text).flatMap((heard): WithdrawnSaid[] => {
          const words = parts.findLast(({ start }) => start <= heard.start)?.words;
          const { byId, meant } = rowsMeant(heard, text, cited, rows);
          const row = meant ? [...byId.values()].flat().find((each) => isStill(heard, each.row))?.row : undefined;
          return words && row
            ? [{ lesson, chapter, passage, recording, heard, how, words, at: words.at.start, spec: row.id, row }]
            : [];
        });
      })
      .toSorted((a, b) => a.at - b.at);
  });
}

function isStill(heard: HeardQuantity, { written, former }: Spec): boolean {
  return (
    written.withdrawn !== undefined &&
    former.some(({ quantity }) =>
      (quantity ? partsOf(quantity) : []).some((part) => isComparable(heard, part) && agrees(heard, part)),
    )
  );
}

/** The correction that covers it: of the same step and row, shown when the words are or before. */
export function correctionOfWithdrawn(
  { corrections }: Pick<Shop, 'corrections'>,
  { lesson, passage, spec, words }: WithdrawnSaid,
): Correction | undefined {
  return corrections.find(
    (each) =>
      each.lesson === lesson.id && each.step === passage.id && each.spec === spec && each.moment <= words.at.end,
  );
}
