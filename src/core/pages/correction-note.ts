import type { Shop } from '../model/index.ts';
import type { CorrectionShown } from '../programme/index.ts';
import { type ValueShown, valuesShown } from './value-shown.ts';

/** A correction in words: what the recording says or shows, and the value that holds, from the table. */
export interface CorrectionNote {
  readonly id: string;
  /** Day it was made, YYYY-MM-DD. */
  readonly on: string;
  readonly said?: string;
  readonly shown?: string;
  readonly note?: string;
  /** Title of the spec. */
  readonly title: string;
  readonly values: readonly ValueShown[];
}

export function correctionNote(shop: Shop, { correction, rows, machine, id }: CorrectionShown): CorrectionNote {
  const { said, shown, on, note } = correction;
  return {
    id,
    on,
    ...(said ? { said } : {}),
    ...(shown ? { shown } : {}),
    ...(note ? { note } : {}),
    title: rows[0].row.title,
    values: valuesShown(shop, machine, rows),
  };
}
