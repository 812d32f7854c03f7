import type { SearchData } from '../../core/search/index.ts';

/** The row of a record, and the sentences by which it may have been found. */
export interface FoundRow {
  readonly row: HTMLLIElement;
  readonly text: string;
}

/** Gives the row of a record by its place; nothing where it has none. */
export type RowOf = (place: number) => Promise<FoundRow | undefined>;

/**
 * Rows that the page was made with. Their values are those of the page, so they are narrowed to the chosen machine as
 * everywhere.
 */
export function pageRows(page: ParentNode, records: SearchData['records']): RowOf {
  const rows = new Map(
    [...page.querySelectorAll<HTMLLIElement>('.all li[data-record], .specs li')].map((row) => [
      row.dataset.record ?? '',
      row,
    ]),
  );
  return async (place) => {
    const record = records[place];
    const row = rows.get(record?.id ?? '');
    return row && { row, text: record?.text ?? '' };
  };
}
