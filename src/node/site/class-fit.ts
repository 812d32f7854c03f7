import { type ClassFit, fitClass, partLookup } from '../../core/fit/index.ts';
import type { Shop, ShopClass } from '../../core/model/index.ts';
import { loadSolver } from '../programs/index.ts';

const known = new WeakMap<ShopClass, Promise<ClassFit>>();

/** A class fitted into its slot; worked out once for all its pages. */
export function classFit(shop: Shop, shopClass: ShopClass): Promise<ClassFit> {
  const before = known.get(shopClass);
  if (before) return before;
  const fitted = loadSolver().then((solver) => fitClass(shopClass, partLookup(shop), solver));
  known.set(shopClass, fitted);
  return fitted;
}
