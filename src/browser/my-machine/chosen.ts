/** What an attendee has said of their machine. */
export interface Chosen {
  readonly machine: string;
  readonly year?: number;
  readonly variant?: string;
  readonly region?: string;
}

/** Where it is kept in this browser. */
export const MY_MACHINE_KEY = 'liftside.my-machine';

/** The machine kept in this browser; nothing where none was named or nothing can be kept. */
export function chosenMachine(): Chosen | undefined {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(MY_MACHINE_KEY) ?? 'null');
    return typeof kept === 'object' && kept !== null && 'machine' in kept ? (kept as Chosen) : undefined;
  } catch {
    return undefined;
  }
}

/** Which machines a row holds for, as elements of a page carry it in `data-` attributes. */
export interface Held {
  readonly machine?: string | undefined;
  readonly from?: string | undefined;
  readonly to?: string | undefined;
  /** Ids with blanks between them; absent for all. */
  readonly variants?: string | undefined;
  readonly regions?: string | undefined;
}

/** True where a row holds for a machine, as far as it is known; a row of another machine stays. */
export function holdsFor(row: Held, chosen: Chosen): boolean {
  if (row.machine !== chosen.machine) return true;
  const { year, variant, region } = chosen;
  const names = (list: string | undefined, one: string | undefined) =>
    list === undefined || one === undefined || list.split(' ').includes(one);
  const inYears = year === undefined || (Number(row.from) <= year && year <= Number(row.to));
  return inYears && names(row.variants, variant) && names(row.regions, region);
}
