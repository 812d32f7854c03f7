import type { Diagnostic, Recording, Shop } from '../model/index.ts';

const WEIGHT = { error: 0, warning: 1, info: 2 } as const;

/**
 * The findings about what a programme shows and says: its recording and captions, the lessons made from it, the spec
 * tables that they cite and the corrections of them. A lesson that could not be read counts as one of them: it may be, and
 * its warnings would be missing. Worst first.
 */
export function programmeFindings(shop: Shop, recording: Recording, all: readonly Diagnostic[]): Diagnostic[] {
  const lessons = shop.lessons.filter((lesson) => lesson.recording === recording.id);
  const files = new Set([
    recording.origin.place.file,
    ...(recording.captions ? [recording.captions.file] : []),
    ...[...shop.broken].map((id) => `lessons/${id}.mdx`),
    ...lessons.flatMap(({ id, machine }) => [`lessons/${id}.mdx`, `specs/${machine}.yaml`, `corrections/${id}.yaml`]),
  ]);
  return all.filter(({ place }) => files.has(place.file)).toSorted((a, b) => WEIGHT[a.severity] - WEIGHT[b.severity]);
}
