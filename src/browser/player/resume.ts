/** Where a viewer was in each lesson, kept in this browser. */
const KEY = 'liftside.place';
/** Nothing is offered from the first seconds, nor from the end. */
const WORTH_SECONDS = 20;

interface Place {
  readonly seconds: number;
  readonly of: number;
}

function readPlaces(): Record<string, Place> {
  try {
    const value: unknown = JSON.parse(localStorage.getItem(KEY) ?? '{}');
    return typeof value === 'object' && value !== null ? (value as Record<string, Place>) : {};
  } catch {
    // Storage is closed off, or holds something else by now.
    return {};
  }
}

/**
 * Where to go on, programme seconds; nothing when the lesson was hardly begun or seen to its end, or when the
 * programme has another length by now.
 */
export function placeToResume(lesson: string, length: number): number | undefined {
  const place = readPlaces()[lesson];
  if (!place || typeof place.seconds !== 'number' || Math.abs(place.of - length) > 1) return undefined;
  return place.seconds >= WORTH_SECONDS && place.seconds <= length - WORTH_SECONDS ? place.seconds : undefined;
}

export function keepPlace(lesson: string, seconds: number, length: number): void {
  try {
    localStorage.setItem(KEY, JSON.stringify({ ...readPlaces(), [lesson]: { seconds, of: length } }));
  } catch {
    // Storage is closed off or full; the place is lost with the page.
  }
}
