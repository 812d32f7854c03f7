/** The address of a page or file of this site, under the path it is served from. */
export function href(path: string): string {
  return `${import.meta.env.BASE_URL.replace(/\/$/, '')}/${path}`;
}
