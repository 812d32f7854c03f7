import type { LoadedShop } from '../files/index.ts';
import type { ShotList } from './phone-desk.ts';

/** The shot list of a lesson: its chapters and steps in order; nothing where there is no such lesson. */
export function shotList({ shop }: LoadedShop, id: string): ShotList | undefined {
  const lesson = shop.lessons.find((each) => each.id === id);
  return (
    lesson && {
      lesson: id,
      title: lesson.title,
      shots: lesson.chapters.flatMap((chapter) => [
        { id: chapter.id, kind: 'chapter' as const, title: chapter.title },
        ...chapter.steps.map((step) => ({ id: step.id, kind: 'step' as const, title: step.title })),
      ]),
    }
  );
}
