import { wording } from '../locale/index.ts';
import type { Shop, Spec } from '../model/index.ts';
import { provenanceInWords, provenanceOf } from './provenance.ts';

/**
 * Where a row's value comes from, short: document, section, page; of a shared one also from whom, and whether that is
 * unchecked; of a withdrawn one since when and why there is none. Nothing when the row names no document.
 */
export function sourceInWords(shop: Shop, machineId: string, row: Spec): string | undefined {
  const { written } = row;
  const { source, withdrawn } = written;
  if (!source) return undefined;
  const { t } = wording(shop.locale);
  if (withdrawn)
    return t('since {day}: {why}; look it up in the service manual', { day: withdrawn.on, why: withdrawn.why });
  const machine = shop.machines.find(({ id }) => id === machineId);
  const document = machine?.written.documents?.[source.document]?.title ?? source.document;
  const where = [
    document,
    source.section,
    source.page === undefined ? undefined : t('p. {page}', { page: String(source.page) }),
  ]
    .filter((part) => part !== undefined)
    .join(', ');
  const from = provenanceOf(shop, machineId, row);
  const shared = from && provenanceInWords(from, shop.locale);
  return shared === undefined ? where : `${where}; ${shared}`;
}
