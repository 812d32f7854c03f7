import type { Lesson, Shop } from '../model/index.ts';
import { correctionNote, valueShown } from '../pages/index.ts';
import { correctionsShown, labelledRows, rowShown, sourceInWords } from '../programme/index.ts';
import type { KeptCorrection, KeptValue, KeptWords } from './keep-list.ts';

/** The values that a lesson cites, for every model year, and its corrections, in words. */
export function keptWords(shop: Shop, lesson: Lesson): KeptWords {
  return { values: valuesOf(shop, lesson), corrections: correctionsOf(shop, lesson) };
}

function valuesOf(shop: Shop, lesson: Lesson): KeptValue[] {
  const machine = shop.machines.find(({ id }) => id === lesson.machine);
  if (!machine) return [];
  const passages = lesson.chapters.flatMap((chapter) => [chapter, ...chapter.steps]);
  const cited = new Set(passages.flatMap(({ cites }) => cites.map(({ spec }) => spec)));
  return [...cited].flatMap((id) => {
    const rows = machine.specs.filter((row) => row.id === id);
    return labelledRows(machine, rows).flatMap((shown): KeptValue[] => {
      if (!rowShown(shown.row, shop.info.units) || !sourceInWords(shop, machine.id, shown.row)) return [];
      const { whose, value, critical, path } = valueShown(shop, machine, shown);
      const { primary, secondary } = value;
      return [
        {
          ...{ path, title: shown.row.title, text: secondary ? `${primary} (${secondary})` : primary },
          ...(whose && { whose }),
          ...(critical && { critical }),
        },
      ];
    });
  });
}

function correctionsOf(shop: Shop, lesson: Lesson): KeptCorrection[] {
  return correctionsShown(shop)
    .filter((each) => each.lesson.id === lesson.id)
    .map((each) => {
      const { id, on, said, shown, note, title, values } = correctionNote(shop, each);
      const wrong = [said && `the recording says ${said}`, shown && `the recording shows ${shown}`].filter(Boolean);
      const right = values.map(({ whose, value }) => `${whose ? `${whose}: ` : ''}${value.primary}`).join('; ');
      const text = `${each.passage.title}: ${[...wrong, `${title} is ${right}`, note].filter(Boolean).join('; ')}`;
      return { id, on, text };
    });
}
