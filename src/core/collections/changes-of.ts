import { type Diagnostic, type Machine, placeOf, type Shop, type Spec } from '../model/index.ts';
import { readShop } from '../read/index.ts';
import { writtenQuantity } from '../spec/index.ts';

/**
 * Values that a new version changes without saying so: shops that take it find the recordings that say the old value by
 * the row's history, and a row that is gone leaves the old value standing there.
 *
 * @param before texts of the version that was published before; none where this is the first
 */
export function changesOf(shop: Shop, before: ReadonlyMap<string, string> | undefined, version: string): Diagnostic[] {
  if (!before) return [];
  const tables = new Map([...before].filter(([file]) => file.startsWith('specs/')));
  const { shop: was } = readShop(tables, () => ({ state: 'missing' }));
  return was.machines.flatMap((old) => {
    const now = shop.machines.find(({ id }) => id === old.id);
    return now ? old.specs.flatMap((row) => silent(row, now, version)) : [];
  });
}

function silent(old: Spec, now: Machine, version: string): Diagnostic[] {
  const rows = now.specs.filter(({ id }) => id === old.id);
  const [row] = rows;
  const said = old.quantity ? writtenQuantity(old.quantity) : '';
  const holds = ({ quantity }: { quantity?: Spec['quantity'] }) => quantity && writtenQuantity(quantity) === said;
  if (said === '' || rows.some((each) => holds(each) || each.former.some(holds))) return [];
  return [
    {
      rule: 'shared-value-changed',
      severity: 'error',
      place: row ? placeOf(row) : placeOf(now, 'specs'),
      message: row
        ? `${old.id} was published as ${said}, and ${version} no longer says so`
        : `${old.id}, ${said}, was published, and ${version} does not have it`,
      why: 'Shops that took the old value have recordings that say it: by its history they find them.',
      help: row
        ? `write it under history:, with the last day it was right: - {until: YYYY-MM-DD, …}`
        : 'keep the row, with withdrawn: {on: YYYY-MM-DD, why: …} where no value holds any more',
    },
  ];
}
