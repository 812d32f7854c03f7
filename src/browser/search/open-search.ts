import {
  type DividedHead,
  dividedSource,
  indexOf,
  Search,
  type SearchData,
  wholeSource,
} from '../../core/search/index.ts';
import { blockRows } from './block-rows.ts';
import { pageRows, type RowOf } from './found-row.ts';

/** The head of an index in parts, beside the addresses of these and of rows that show what is found. */
export interface DividedFile extends DividedHead {
  /** How many rows a block of them has. */
  readonly block: number;
}

/** A search, and the rows that show what it finds. */
export interface OpenedSearch {
  readonly search: Search;
  readonly rowOf: RowOf;
}

/**
 * Search over the records of this site; loaded when somebody types.
 *
 * @param address of the records
 * @param page the element with the rows of all records, where they stand on the page
 * @param rows address of the blocks of rows, where they do not
 * @throws when they cannot be reached
 */
export async function openSearch(address: string, page: ParentNode, rows: string | undefined): Promise<OpenedSearch> {
  if (rows === undefined) {
    const data = address.endsWith('.js') ? await recordsOfScript(address) : await readJson<SearchData>(address);
    return { search: new Search(wholeSource(indexOf(data))), rowOf: pageRows(page, data.records) };
  }
  const head = await readJson<DividedFile>(address);
  const parts = address.replace(/\.json$/, '');
  return {
    search: new Search(dividedSource(head, (name) => readJson(`${parts}/${name}.json`))),
    rowOf: blockRows(rows, head.block),
  };
}

async function readJson<T>(address: string): Promise<T> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`${address}: ${response.status}`);
  return response.json();
}

/** A page opened from a folder may ask for no file, but may load a script: in a package the records are one. */
async function recordsOfScript(address: string): Promise<SearchData> {
  const script = document.createElement('script');
  script.src = address;
  await new Promise((resolve, reject) => {
    script.addEventListener('load', resolve, { once: true });
    script.addEventListener('error', () => reject(new Error(`${address} is not there`)), { once: true });
    document.head.append(script);
  });
  const { liftsideRecords } = globalThis as { liftsideRecords?: SearchData };
  if (!liftsideRecords) throw new Error(`${address} holds no records`);
  return liftsideRecords;
}
