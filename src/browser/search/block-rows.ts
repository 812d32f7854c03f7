import type { FoundRow, RowOf } from './found-row.ts';

/**
 * Rows of a large shop, which come in blocks when they are wanted.
 *
 * @param address of the blocks, which lie below it by number
 * @param size how many rows each has
 */
export function blockRows(address: string, size: number): RowOf {
  const blocks = new Map<number, Promise<FoundRow[]>>();
  return async (place) => {
    const number = Math.floor(place / size);
    const block = blocks.get(number) ?? readBlock(`${address}${number}/`);
    blocks.set(number, block);
    block.catch(() => blocks.delete(number));
    return (await block)[place % size];
  };
}

async function readBlock(address: string): Promise<FoundRow[]> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`${address}: ${response.status}`);
  const block = new DOMParser().parseFromString(await response.text(), 'text/html');
  const texts: readonly string[] = JSON.parse(block.querySelector('script')?.textContent ?? '[]');
  return [...block.querySelectorAll<HTMLLIElement>('li[data-record]')].map((row, at) => ({
    row: document.adoptNode(row),
    text: texts[at] ?? '',
  }));
}
