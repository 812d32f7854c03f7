import { Search, type SearchData } from '../../core/search/index.ts';

/**
 * Search over the records of this site; loaded when somebody types.
 *
 * @param address of the records
 * @throws when they cannot be reached
 */
export async function openSearch(address: string): Promise<Search> {
  return new Search(address.endsWith('.js') ? await recordsOfScript(address) : await recordsOfSite(address));
}

async function recordsOfSite(address: string): Promise<SearchData> {
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
