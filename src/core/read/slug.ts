/** An id from a title: small letters, digits, hyphens; letters with marks lose them; `step` when nothing is left. */
export function slug(title: string): string {
  const plain = title
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/['’]/g, '')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '');
  return plain === '' ? 'step' : plain;
}
