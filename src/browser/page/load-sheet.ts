/**
 * Fetches a style sheet that a page needs only from now on. A page of a package has it from the start; one that cannot
 * be fetched holds nobody up.
 *
 * @param address as the bundler names it
 * @returns once its rules hold
 */
export function loadSheet(address: string): Promise<void> {
  const name = address.slice(address.lastIndexOf('/') + 1);
  if (document.querySelector(`link[rel=stylesheet][href$="${CSS.escape(name)}"]`)) return Promise.resolve();
  const link = Object.assign(document.createElement('link'), { rel: 'stylesheet', href: address });
  return new Promise((done) => {
    link.onload = () => done();
    link.onerror = () => done();
    document.head.append(link);
  });
}
