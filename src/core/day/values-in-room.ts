import type { Clip, ValueInRoom } from './day-sheet.ts';

/**
 * The values of a clip that the room reads.
 *
 * @param year model year that somebody asked for; the lesson's own years when left out
 */
export function valuesInRoom({ values }: Pick<Clip, 'values'>, year?: number): readonly ValueInRoom[] {
  return year === undefined
    ? values.filter(({ otherYears }) => otherYears === undefined)
    : values.filter(({ years }) => years.from <= year && year <= years.to);
}

/** The model years that the values of some clips hold for. */
export function yearsKnown(clips: readonly Pick<Clip, 'values'>[]): { from: number; to: number } | undefined {
  const years = clips.flatMap(({ values }) => values.map((value) => value.years));
  if (years.length === 0) return undefined;
  return { from: Math.min(...years.map(({ from }) => from)), to: Math.max(...years.map(({ to }) => to)) };
}
