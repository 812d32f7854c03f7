import { Search, type SearchData } from '../../core/search/index.ts';

/**
 * Search over the records of this site; loaded when somebody types.
 *
 * @param address of the records
 * @throws when they cannot be reached
 */
export async function openSearch(address: string): Promise<Search> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`${address}: ${response.status}`);
  const data: SearchData = await response.json();
  return new Search(data);
}
