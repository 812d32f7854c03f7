import type { Shop, Spec } from '../model/index.ts';

/** Where a row's value comes from, short: document, section, page. Nothing when the row names no document. */
export function sourceInWords(shop: Shop, machineId: string, { written }: Spec): string | undefined {
  const { source } = written;
  if (!source) return undefined;
  const machine = shop.machines.find(({ id }) => id === machineId);
  const document = machine?.written.documents?.[source.document]?.title ?? source.document;
  return [document, source.section, source.page === undefined ? undefined : `p. ${source.page}`]
    .filter((part) => part !== undefined)
    .join(', ');
}
