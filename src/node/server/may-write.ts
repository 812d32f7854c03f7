/** The files the cutting room writes. */
export function mayWrite(file: string): boolean {
  return /^((recordings|questions)\/[a-z0-9]+(-[a-z0-9]+)*\.yaml|lessons\/[a-z0-9]+(-[a-z0-9]+)*\.mdx)$/.test(file);
}
