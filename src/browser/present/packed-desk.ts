import type { DaySheet } from '../../core/day/index.ts';

/** What a page of the day carries in a package. */
export interface PackedDesk {
  readonly class: string;
  /** Name of the package, which everything that a browser keeps of it stands under. */
  readonly keep: string;
  /** Of the page that the room sees. */
  readonly room: string;
  readonly sheet: DaySheet;
  /** The shop names its time zone; otherwise the class begins at its hour where it is opened. */
  readonly zoned: boolean;
}

/** @returns nothing on a page that is none of the day */
export function packedDesk<T extends Partial<PackedDesk>>(): { readonly place: Element; readonly desk: T } | undefined {
  const place = document.querySelector('#day');
  const desk = JSON.parse(document.querySelector('#desk')?.textContent ?? 'null') as T | null;
  return place && desk ? { place, desk } : undefined;
}

/**
 * The sheet where it is opened: its planned start by the clock of this machine where the shop names no time zone, and
 * films with their whole addresses, which hold in the room's window too.
 *
 * @param page address of the page
 */
export function sheetHere({ sheet, zoned }: PackedDesk, page: string): DaySheet {
  const { date, starts } = sheet.shopClass;
  const local = new Date(`${date}T${starts.padStart(5, '0')}`).getTime();
  const startsAt = zoned || Number.isNaN(local) ? sheet.startsAt : local;
  const films = Object.entries(sheet.films).map(([lesson, film]) => {
    const files = film.plan.files.map((file) => ({ ...file, url: new URL(file.url, page).href }));
    return [lesson, { ...film, plan: { ...film.plan, files } }] as const;
  });
  return { ...sheet, startsAt, films: Object.fromEntries(films) };
}
