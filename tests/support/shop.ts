import { SOUND_SHOP, sampleContent } from '../../src/core/check/index.ts';
import type { FileFacts, Lesson, Recording, Shop, ShopClass } from '../../src/core/model/index.ts';
import { type LessonTimes, lessonTimes } from '../../src/core/programme/index.ts';
import { readShop } from '../../src/core/read/index.ts';
import { TICKS_PER_SECOND } from '../../src/core/time/index.ts';

/** The sound small shop with some files in place of its own. */
export interface SmallShop {
  readonly shop: Shop;
  readonly recording: Recording;
  readonly lesson: Lesson;
  readonly times: LessonTimes;
  readonly shopClass: ShopClass;
}

/** @param media seconds of each camera file, and its start timecode */
export function smallShop(
  files: Readonly<Record<string, string>> = {},
  media: Readonly<Record<string, { seconds: number; sound?: number; start?: string }>> = {},
): SmallShop {
  const { texts, facts } = sampleContent({ files });
  const known = (file: string): FileFacts => {
    const own = media[file];
    if (!own) return facts(file);
    return {
      state: 'media',
      media: {
        duration: Math.round(own.seconds * TICKS_PER_SECOND),
        soundDuration: Math.round((own.sound ?? own.seconds) * TICKS_PER_SECOND),
        framesPerSecond: 30000 / 1001,
        ...(own.start === undefined ? {} : { startTimecode: own.start }),
      },
    };
  };
  const { shop } = readShop(texts, known);
  const [recording] = shop.recordings;
  const [lesson] = shop.lessons;
  const [shopClass] = shop.classes;
  if (!recording || !lesson || !shopClass) throw new Error('the small shop has one of everything');
  return { shop, recording, lesson, times: lessonTimes(lesson, recording), shopClass };
}

/** A file of the sound shop with one stretch replaced. */
export function changedFile(file: string, from: string, to: string): Readonly<Record<string, string>> {
  const text = SOUND_SHOP[file] ?? '';
  if (!text.includes(from)) throw new Error(`${file} does not hold "${from}"`);
  return { [file]: text.replace(from, () => to) };
}

/** The value, or a failure that says the problem. */
export function done<T>(
  result: { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problem: string },
): T {
  if (!result.ok) throw new Error(result.problem);
  return result.value;
}
